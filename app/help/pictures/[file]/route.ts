import { guidePicture } from '#app/help/guides.ts';
import { notFoundProblem } from '#app/server/responses.ts';

/** A picture of a guide, of the demo: nothing of anybody's sale is to be seen on it. */
export async function GET(_: Request, { params }: { readonly params: Promise<{ file: string }> }): Promise<Response> {
  const picture = guidePicture((await params).file);
  if (!picture) return notFoundProblem('There is no such picture: open the guide again.');
  return new Response(picture, { headers: { 'content-type': 'image/png', 'cache-control': 'max-age=3600' } });
}
