/** Draws one document, and leaves nothing of it behind. */
import type { DocumentProps } from '@react-pdf/renderer';
import { pdf } from '@react-pdf/renderer';
import type { ReactElement } from 'react';

type Drawing = ReturnType<typeof pdf>;

export async function draw(document: ReactElement<DocumentProps>): Promise<Uint8Array> {
  const drawing = pdf(document);
  try {
    return await wholeOf(await drawing.toBuffer());
  } finally {
    letGo(drawing);
  }
}

/** The renderer keeps every document that was ever drawn, unless it is told that there is none. */
function letGo(drawing: Drawing): void {
  drawing.updateContainer(null as unknown as ReactElement<DocumentProps>);
  (drawing.container as { document: unknown }).document = null;
}

async function wholeOf(stream: NodeJS.ReadableStream): Promise<Uint8Array> {
  const parts: Buffer[] = [];
  for await (const part of stream) parts.push(Buffer.from(part));
  return Buffer.concat(parts);
}
