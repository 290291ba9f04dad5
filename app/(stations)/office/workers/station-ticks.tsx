import { CheckField } from '#app/ui/field.tsx';
import type { Station } from '#db/command.ts';

/** The stations in the words of the screens; the order is that of the house. */
const NAMES: Readonly<Record<Station, string>> = {
  intake: 'Intake',
  block: 'Block',
  till: 'Till',
  payout: 'Payout',
  office: 'Office',
};

export const ALL_STATIONS = Object.keys(NAMES) as Station[];

interface StationTicksProps {
  readonly ticked: readonly Station[];
  readonly change: (stations: Station[]) => void;
  readonly error?: string | undefined;
}

/** At which stations somebody may work. */
export function StationTicks({ ticked, change, error }: StationTicksProps) {
  const toggled = (station: Station) =>
    ALL_STATIONS.filter((one) => (one === station ? !ticked.includes(one) : ticked.includes(one)));
  return (
    <fieldset className="field wide" data-wrong={error ? '' : undefined}>
      <legend>Works at</legend>
      {error && <span className="field-error">{error}</span>}
      <div className="ticks">
        {ALL_STATIONS.map((station) => (
          <CheckField
            key={station}
            label={NAMES[station]}
            checked={ticked.includes(station)}
            onChange={() => change(toggled(station))}
          />
        ))}
      </div>
    </fieldset>
  );
}
