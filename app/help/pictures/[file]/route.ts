import { guidePicture } from '#app/help/guides.ts';
import { problem } from '#app/server/problem.ts';
import { refuse } from '#lib/result/result.ts';

interface PictureProps {
  readonly params: Promise<{ file: string }>;
}

/** A picture of a guide, of the demo: nothing of anybody's sale is to be seen on it. */
export async function GET(_request: Request, { params }: PictureProps): Promise<Response> {
  const picture = guidePicture((await params).file);
  if (!picture) return problem(refuse('unknown', 'There is no such picture: open the guide again.'), 404);
  return new Response(picture, { headers: { 'content-type': 'image/png', 'cache-control': 'max-age=3600' } });
}
