import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { connection } from 'next/server';
import { guideHtml, guideNames, guideText, titleOf } from '#app/help/guides.ts';
import { HelpFrame } from '#app/help/help-frame.tsx';
import { hallAddresses, isHallOpen } from '#app/server/hall.ts';
import { bookNow } from '#app/server/state.ts';

interface PageProps {
  readonly params: Promise<{ page: string }>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  return { title: titleOf(guideText((await params).page) ?? '') };
}

export default async function Page({ params }: PageProps) {
  await connection();
  const text = guideText((await params).page);
  if (text === undefined) notFound();
  return (
    <HelpFrame>
      {(await params).page === 'network' && <JoinHere />}
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: Our own guides, whose raw HTML is shown as text. */}
      <article className="sheet guide" dangerouslySetInnerHTML={{ __html: guideHtml(text, guideNames()) }} />
    </HelpFrame>
  );
}

/** The guide gives examples; this is the hall in which it is read. */
function JoinHere() {
  const [best] = isHallOpen() ? hallAddresses(bookNow()) : [];
  if (!best) return null;
  return (
    <p className="sheet">
      This hall is at <strong>{best.open}</strong>
      {best.secure && `, for the staff at ${best.secure}`}.{' '}
      <a href="/join">Join with this device: steps and the certificate</a>
    </p>
  );
}
