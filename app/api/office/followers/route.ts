import { staffRoute } from '#app/request/caller.ts';
import { followersView } from '#app/server/followers.ts';
import { jsonResponse } from '#app/server/responses.ts';

/** How far behind each second laptop is, and since when it is silent. */
export const GET = staffRoute(['office'], ({ book }) => jsonResponse(followersView(book)));
