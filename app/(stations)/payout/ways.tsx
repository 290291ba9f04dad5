import Link from 'next/link';

const WAYS = [
  { path: '/payout', name: 'Settlements' },
  { path: '/payout/checks', name: 'Checks' },
  { path: '/payout/balance', name: 'Balance' },
  { path: '/payout/kept', name: 'What we keep' },
  { path: '/payout/after', name: 'Afterwards' },
] as const;

export type Way = (typeof WAYS)[number]['path'];

/** The rooms of payout, in the order in which the evening goes through them. */
export function Ways({ saleId, here }: { readonly saleId: number; readonly here: Way | null }) {
  return (
    <nav aria-label="Payout" className="no-print">
      <ul className="stations">
        {WAYS.map(({ path, name }) => (
          <li key={path}>
            <Link href={`${path}?sale=${saleId}`} aria-current={path === here ? 'page' : undefined}>
              {name}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}
