import type { Word } from '#app/station.ts';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { STATIONS } from '#db/command.ts';

/** A plain form that asks by address: what was asked can be kept as a bookmark. */
export function LogForm({ word, workers }: { readonly word: Word; readonly workers: readonly string[] }) {
  return (
    <form className="log-form" method="get" action="/office/log">
      {word('sale') && <input type="hidden" name="sale" value={word('sale')} />}
      {word('person') && <input type="hidden" name="person" value={word('person')} />}
      <div className="fields">
        <TextField label="Lot" name="lot" defaultValue={word('lot') ?? ''} inputMode="numeric" />
        <ChoiceField label="Who" name="worker" defaultValue={word('worker') ?? ''}>
          <option value="">everybody</option>
          {workers.map((worker) => (
            <option key={worker}>{worker}</option>
          ))}
        </ChoiceField>
        <ChoiceField label="Station" name="station" defaultValue={word('station') ?? ''}>
          <option value="">all</option>
          {STATIONS.map((station) => (
            <option key={station}>{station}</option>
          ))}
        </ChoiceField>
        <TextField label="From the day" name="from" type="date" defaultValue={word('from') ?? ''} />
        <TextField label="To the day" name="to" type="date" defaultValue={word('to') ?? ''} />
        <TextField label="Before line" name="before" defaultValue={word('before') ?? ''} inputMode="numeric" />
      </div>
      <p className="acts">
        <button type="submit" className="act">
          Show these lines
        </button>
      </p>
    </form>
  );
}
