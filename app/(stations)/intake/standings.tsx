import { Mark, type Tone } from '#app/ui/mark.tsx';
import { Unbroken } from '#app/ui/unbroken.tsx';
import type { LicenceState, MembershipState, Standing } from '#lib/standing.ts';

const MEMBERSHIP: Readonly<Record<MembershipState, Tone>> = { paid: 'done', lapsed: 'wait', guest: 'open' };
const LICENCE: Readonly<Record<LicenceState, Tone>> = {
  good: 'done',
  expired: 'stop',
  undated: 'wait',
  missing: 'stop',
};

interface StandingsProps {
  readonly membership: Standing<MembershipState>;
  readonly licence: Standing<LicenceState>;
}

/** Membership and licence, each a word with its shape. */
export function Standings({ membership, licence }: StandingsProps) {
  return (
    <p className="standings">
      <Mark tone={MEMBERSHIP[membership.state]}>
        <span>
          <Unbroken>{membership.words}</Unbroken>
        </span>
      </Mark>{' '}
      <Mark tone={LICENCE[licence.state]}>
        <span>
          <Unbroken>{licence.words}</Unbroken>
        </span>
      </Mark>
    </p>
  );
}
