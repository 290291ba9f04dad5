/** Asks the server for one of the office's acts that change no entry: a backup, a proof, or that writing goes on. */
export interface OfficeAnswer {
  readonly ok: boolean;
  readonly words: string;
}

export async function sendOffice(act: 'writing' | 'backup' | 'verify'): Promise<OfficeAnswer> {
  try {
    const headers = { 'content-type': 'application/json', 'x-station': 'office' };
    const response = await fetch(`/api/office/${act}`, { method: 'POST', headers, body: '{}' });
    const said = await response.json();
    return { ok: said.ok === true, words: said.words ?? said.detail ?? 'This was refused.' };
  } catch {
    return { ok: false, words: 'The server did not answer. Try again in a moment.' };
  }
}
