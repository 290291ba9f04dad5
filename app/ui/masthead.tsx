import { shortDate } from '#lib/date/date.ts';
import 'server-only';
import { headers } from 'next/headers';
import { SkipLink, Ways } from '#app/(hall)/hall-frame.tsx';
import { signedIn } from '#app/request/caller.ts';
import { addressChange } from '#app/server/address-change.ts';
import { aloneSince } from '#app/server/followers.ts';
import { hallAddresses, isHallOpen } from '#app/server/hall.ts';
import { lossFor } from '#app/server/seen-head.ts';
import { bookId, bookNow, pageName, serverState, troubleNow } from '#app/server/state.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { clockView, momentIn, otherOpenSales } from '#db/sale/queries.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { StageMark } from './marks.tsx';
import { SavedMark, ThemeSwitch } from './masthead-parts.tsx';
import { Notice } from './notice.tsx';
import { OpenLineMark } from './secure-link.tsx';
import { Unbroken } from './text.tsx';

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

const THEMES = [
  ['', 'As the device'],
  ['light', 'Light'],
  ['dark', 'Dark'],
  ['sun', 'Sun'],
] as const;

type Station = (typeof STATIONS)[number]['path'];

/** The guide of a station; a page that is about something else names its own. */
const guideOf = (here: Station) => (here === '/' ? 'set-up' : here.slice(1));

interface MastheadProps {
  readonly association: string;
  readonly sale?: SaleRow | undefined;
  readonly here: Station;
  readonly guide?: string | undefined;
}

/**
 * Whose sale this is, how far it has come, and the way to the other stations. The ways are plain links: fetching ahead
 * six stations that most tables never open would be work for the laptop, and code that the Block's browser waits for.
 */
export async function Masthead({ association, sale, here, guide = guideOf(here) }: MastheadProps) {
  const worker = (await signedIn())?.name;
  const ofSale = (path: string) => (sale ? `${path}?sale=${sale.id}` : path);
  const stations = STATIONS.map(({ path, name }) => ({ path: ofSale(path), name }));
  return (
    <header className="masthead">
      <SkipLink>Go to the work</SkipLink>
      <p className="masthead-name">
        <strong>{association}</strong>
        <span>
          <Unbroken>{sale ? `${sale.name}, ${shortDate(sale.heldOn)} ` : 'No sale yet '}</Unbroken>
          {sale && <StageMark stage={sale.stage} />}
        </span>
      </p>
      {sale && <OtherOpenSales {...{ sale, here }} />}
      <SavedMark
        owner={{ worker: worker ?? '', book: bookId(), page: pageName() }}
        except={here === '/block' ? 'block' : ''}
        notKept={
          <div className="notice" data-kind="stop" role="alert">
            <p>
              <strong>This browser could not keep the entry.</strong> It is being sent directly: wait for Saved before
              the next one.
            </p>
          </div>
        }
        silence={<Silence />}
        toWaiting={<a href="/waiting">See what waits</a>}
        stopped={
          <>
            What you entered waits here. <a href="/trouble">What to do</a>
          </>
        }
      />
      {/* Who is signed in on this device, and the way to sign out; before there are workers, the way to enter them. */}
      <p className="small who-is-here">
        <a href="/office/workers">{worker ?? 'Workers'}</a>
      </p>
      <div className="masthead-ways">
        <nav aria-label="Stations">
          <Ways of={[...stations, { path: `/help/${guide}`, name: 'Help' }, ...PUBLIC]} here={ofSale(here)} />
        </nav>
        <span className="theme-switch small">
          <label htmlFor="look">Look</label>{' '}
          <ThemeSwitch>
            {THEMES.map(([value, label]) => (
              <option key={value} value={value}>
                {label}
              </option>
            ))}
          </ThemeSwitch>
        </span>
      </div>
      <OpenLineMark />
      <TroubleBanner />
    </header>
  );
}

/** Where two sales are open at once: which one this station works on, and the others by name, after a look at both. */
function OtherOpenSales({ sale, here }: { readonly sale: SaleRow; readonly here: Station }) {
  const book = bookNow();
  const others = book ? otherOpenSales(book, sale) : [];
  if (others.length === 0) return null;
  return (
    <details className="small open-sales">
      <summary>{others.length + 1} sales are open</summary>
      <p>
        This page works on <strong>{sale.name}</strong>. Leave it for the other one?
      </p>
      <div className="acts">
        {others.map(({ id, name, heldOn, stage }) => (
          <span key={id}>
            <a className="button" href={`${here}?sale=${id}`}>
              Switch to {name}, {shortDate(heldOn)}
            </a>{' '}
            <StageMark stage={stage} />
          </span>
        ))}
      </div>
    </details>
  );
}

/**
 * What to look at where the server is silent. A browser does not tell a certificate that it refuses from a laptop that is
 * off: the card of the open line does, in another tab.
 */
function Silence() {
  const [best] = isHallOpen() ? hallAddresses(bookNow()) : [];
  return (
    <details className="notice" data-kind="wait">
      <summary>No answer from the server yet: what to do</summary>
      <p>Nothing that you entered is lost. It waits in this browser, for this address, and goes in by itself.</p>
      <ol>
        <li>Is this device on the Wi-Fi of the hall?</li>
        {best && (
          <li>
            Open{' '}
            <a href={`${best.open}/join`} target="_blank" rel="noopener">
              {`${best.open}/join`}
            </a>{' '}
            in another tab. It says whether the clock of this device or the certificate is the matter, and what to
            press.
          </li>
        )}
        <li>
          If that does not open, the laptop is off or has another address. The office sees it at Network: it should get
          the old address back, where your entries wait.
        </li>
      </ol>
    </details>
  );
}

/** Said where entries ought to wait for a second laptop and it has not answered. */
function aloneInWords(book: Book): string | null {
  const since = networkSaid(book).waitsForSecond ? aloneSince() : null;
  if (since === null) return null;
  return `Saved here only: the second laptop has not answered since ${momentIn(book, new Date(since).toISOString())}.`;
}

const LATE_SHOWN_MS = 15 * 60_000;

/** What was typed before a take-over and came in since: nobody should have to find that out by the log. */
function LateNotice() {
  const late = serverState().late.filter(({ at }) => at > Date.now() - LATE_SHOWN_MS);
  const [last] = late.slice(-1);
  if (!last) return null;
  const many = late.length === 1 ? '1 entry that waited' : `${late.length} entries that waited`;
  const title = `${many} in a browser while the laptops changed came in. The last is from ${last.worker} at ${last.station}.`;
  return (
    <Notice kind="wait" title={title}>
      <p>
        Saved as line {late.map(({ line }) => line).join(', ')} of the log. <a href="/office/log">Look at the log</a>
      </p>
    </Notice>
  );
}

/** What every station must know: nothing is written, or the clock is wrong. Nothing where all is well. */
async function TroubleBanner() {
  const book = bookNow();
  const alone = book ? aloneInWords(book) : null;
  const trouble = troubleNow() ?? (book && lossFor(book, await headers()));
  const changed = book && isHallOpen() ? addressChange(book.file, Date.now()) : null;
  const clock = book ? clockView(book, new Date().toISOString()) : null;
  return (
    <>
      {trouble && (
        <Notice kind="stop" title={trouble.title}>
          <p>
            {trouble.safe} <a href="/trouble">What to do</a>
          </p>
        </Notice>
      )}
      <LateNotice />
      {alone && <Notice kind="wait" title={alone} />}
      {changed && <Notice kind="wait" title={changed.station} />}
      {clock && <Notice kind="wait" title={clock} />}
    </>
  );
}
