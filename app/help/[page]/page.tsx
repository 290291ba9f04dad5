import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { connection } from 'next/server';
import { guideHtml, guideNames, guideText, titleOf } from '#app/help/guides.ts';
import { HelpFrame } from '#app/help/help-frame.tsx';

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
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: Our own guides, whose raw HTML is shown as text. */}
      <article className="sheet guide" dangerouslySetInnerHTML={{ __html: guideHtml(text, guideNames()) }} />
    </HelpFrame>
  );
}
