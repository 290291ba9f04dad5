import { ask } from './ask.ts';

export interface OfficeAnswer {
  readonly ok: boolean;
  readonly words: string;
}

/** Asks the server for one of the office's acts that change no entry: a backup, a proof, or that writing goes on. */
export async function sendOffice(act: 'writing' | 'backup' | 'verify'): Promise<OfficeAnswer> {
  const answer: { ok: boolean; words?: string; message?: string } = await ask(`/api/office/${act}`, 'office', {});
  return { ok: answer.ok, words: answer.words ?? answer.message ?? '' };
}
