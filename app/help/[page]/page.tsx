import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { connection } from 'next/server';
import { guideHtml } from '../guide-html.ts';
import { guideNames, guideText, titleOf } from '../guides.ts';
import { HelpMasthead } from '../help-masthead.tsx';
import '../help.css';

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
    <>
      <HelpMasthead />
      <main id="main" className="page">
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: Our own guides, whose raw HTML is shown as text. */}
        <article className="sheet guide" dangerouslySetInnerHTML={{ __html: guideHtml(text, guideNames()) }} />
      </main>
    </>
  );
}
