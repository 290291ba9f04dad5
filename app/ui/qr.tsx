import 'server-only';
import { darkRuns, QUIET_QR, qrOf } from '#app/papers/encoder.ts';

/** A QR code on a page, to be photographed from the screen or from paper. */
export function Qr({ text }: { readonly text: string }) {
  const code = qrOf(text);
  const side = code.pixx + 2 * QUIET_QR;
  return (
    <svg width="220" height="220" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={`QR code of ${text}`}>
      <rect width={side} height={side} fill="#ffffff" />
      <path d={darkRuns(code)} fill="#000000" />
    </svg>
  );
}
