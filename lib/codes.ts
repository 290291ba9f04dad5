/** Codes of open standards, checked for their form only: the lists behind them change and are not ours to keep. */
import { accept, type Result, refuse } from '#lib/result.ts';

/** An ISO 3166-2 region such as US-WY. */
export function parseRegion(text: string): Result<string> {
  if (/^[A-Z]{2}-[A-Z0-9]{1,3}$/.test(text)) return accept(text);
  return refuse('malformed', 'Enter the region as country and State, such as US-WY (ISO 3166-2).');
}

/** An ISO 4217 currency such as USD. */
export function parseCurrency(text: string): Result<string> {
  if (/^[A-Z]{3}$/.test(text)) return accept(text);
  return refuse('malformed', 'Enter the currency as three capital letters, such as USD (ISO 4217).');
}
