import type { SaleRow } from '#db/queries/find.ts';
import { OpenLineMark } from './open-line-mark.tsx';
import { SavedMark } from './saved-mark.tsx';
import { StageMark } from './stage-mark.tsx';
import { ThemeSwitch } from './theme-switch.tsx';
import { TroubleBanner } from './trouble-banner.tsx';
import { Unbroken } from './unbroken.tsx';
import { WhoIsHere } from './who-is-here.tsx';

const STATIONS = [
  { path: '/', name: 'Sale' },
  { path: '/intake', name: 'Intake' },
  { path: '/block', name: 'Block' },
  { path: '/till', name: 'Till' },
  { path: '/payout', name: 'Payout' },
  { path: '/office', name: 'Office' },
] as const;

/** What the hall and the members see; these pages find their own sale. */
const PUBLIC = [
  { path: '/board', name: 'Board' },
  { path: '/prices', name: 'Prices' },
] as const;

/** The guide of each station; a page that is about something else names its own. */
const GUIDES = {
  ...{ '/': 'set-up', '/intake': 'intake', '/block': 'block', '/till': 'till', '/payout': 'payout' },
  '/office': 'office',
} as const;

interface MastheadProps {
  readonly association: string;
  readonly sale?: SaleRow | undefined;
  readonly here: (typeof STATIONS)[number]['path'];
  readonly guide?: string | undefined;
}

/**
 * Whose sale this is, how far it has come, and the way to the other stations. The ways are plain links: fetching ahead
 * six stations that most tables never open would be work for the laptop, and code that the Block's browser waits for.
 */
export function Masthead({ association, sale, here, guide = GUIDES[here] }: MastheadProps) {
  return (
    <header className="masthead">
      <a className="skip" href="#main">
        Go to the work
      </a>
      <p className="masthead-name">
        <strong>{association}</strong>
        <span>
          <Unbroken>{sale ? `${sale.name}, ${sale.heldOn} ` : 'No sale yet '}</Unbroken>
          {sale && <StageMark stage={sale.stage} />}
        </span>
      </p>
      <SavedMark />
      <WhoIsHere />
      <div className="masthead-ways">
        <nav aria-label="Stations">
          <ul className="stations">
            {STATIONS.map(({ path, name }) => (
              <li key={path}>
                <a href={sale ? `${path}?sale=${sale.id}` : path} aria-current={path === here ? 'page' : undefined}>
                  {name}
                </a>
              </li>
            ))}
            <li>
              <a href={`/help/${guide}`}>Help</a>
            </li>
            {PUBLIC.map(({ path, name }) => (
              <li key={path}>
                <a href={path}>{name}</a>
              </li>
            ))}
          </ul>
        </nav>
        <ThemeSwitch />
      </div>
      <OpenLineMark />
      <TroubleBanner />
    </header>
  );
}
