'use client';

import { useState } from 'react';
import { PersonForm } from '#app/(stations)/intake/person-form.tsx';
import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { newcomer, usePeople } from '#app/(stations)/use-people.ts';
import { type Choice, Combobox } from '#app/ui/combobox.tsx';
import { CheckField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { unsayAll, useGive, useSaid } from '#app/ui/use-give.ts';
import type { LastBuyers } from '#db/buyer/accounts.ts';
import type { FoundPerson } from '#db/person/queries.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { emptyTyped } from '#lib/field/fields.ts';
import { BuyerFields } from './buyer-fields.tsx';

interface NewBuyerProps {
  readonly saleId: number;
  /** The sale's own State, from which most buyers' licences come. */
  readonly region: string;
}

type Step =
  | { readonly at: 'finding' }
  | { readonly at: 'enrolling'; readonly name: string }
  | { readonly at: 'registering'; readonly person: Pick<FoundPerson, 'personId' | 'name'> };

/** Finds somebody or enrols them, then gives them a buyer number. */
export function NewBuyer({ saleId, region }: NewBuyerProps) {
  const { text, found, type } = usePeople(saleId);
  const [step, setStep] = useState<Step>({ at: 'finding' });
  const [given, setGiven] = useState<string>();
  const back = () => setStep({ at: 'finding' });
  if (step.at === 'enrolling') {
    return (
      <PersonForm
        name={step.name}
        onDone={(personId, { name }) => setStep({ at: 'registering', person: { personId, name } })}
        onLeave={back}
      />
    );
  }
  if (step.at === 'registering') {
    const done = (buyerNo: number) => {
      setGiven(`${step.person.name} is buyer ${buyerNo}.`);
      void type('');
      back();
    };
    return <BuyerForm {...{ saleId, region }} person={step.person} onGiven={done} onLeave={back} />;
  }
  const pick = ({ id }: Choice) => {
    const person = found.find(({ personId }) => String(personId) === id);
    setGiven(undefined);
    setStep(person ? { at: 'registering', person } : { at: 'enrolling', name: text });
  };
  return (
    <>
      {given && <Notice kind="done" title={given} />}
      <Combobox
        wide
        label="Who wants to buy?"
        hint="Any part of the name, the phone or the licence"
        value={text}
        onText={(typed) => void type(typed)}
        choices={text.trim() === '' ? [] : [...found.map(choiceOf), newcomer(text)]}
        onPick={pick}
      />
    </>
  );
}

function choiceOf({ personId, name, place, phone }: FoundPerson): Choice {
  return { id: String(personId), label: name, detail: [place, phone].filter(Boolean).join(' · ') };
}

interface BuyerFormProps extends NewBuyerProps {
  readonly person: { readonly personId: number; readonly name: string };
  readonly onGiven: (buyerNo: number) => void;
  readonly onLeave: () => void;
}

/** What a buyer shows at the till; the book gives the next free number. */
function BuyerForm({ saleId, region, person, onGiven, onLeave }: BuyerFormProps) {
  const [fields, setFields] = useState({ ...emptyTyped(BUYER_FIELDS), licenceRegion: region, cleared: false });
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const register = async () => {
    const input = { saleId, personId: person.personId, ...fields };
    const reply = await give('buyer.register', input, `Buyer ${person.name}`);
    if (reply.ok) onGiven(reply.value.buyerNo);
  };
  return (
    <Form onEntered={register} busy={busy} wrong={elsewhere} aria-labelledby="new-buyer">
      <h3 id="new-buyer">{person.name}</h3>
      <div className="fields">
        <BuyerFields {...{ fields, errorOf }} onChange={(over) => setFields({ ...fields, ...over })} />
        <CheckField
          label="Cleared to buy"
          checked={fields.cleared}
          onTick={(cleared) => setFields({ ...fields, cleared })}
        />
      </div>
      <SubmitActs label="Give a buyer number" main>
        <Act words="Back to the search" act={onLeave} />
      </SubmitActs>
    </Form>
  );
}

/** Gives the buyers of the last sale their numbers again, in one act. */
export function CarryBuyers({ saleId, lastYear }: { readonly saleId: number; readonly lastYear: LastBuyers | null }) {
  const [done, setDone] = useSaid<string>();
  // As many as there were when it was asked: an answer is to what was read.
  const [asked, setAsked] = useSaid<number>();
  const { give, busy, refusal } = useGive('till');
  const ask = (count: number) => {
    unsayAll();
    setAsked(count);
  };
  const carry = async (seen: number) => {
    setAsked(undefined);
    const reply = await give('buyers.carry', { saleId, seen }, 'Last year’s buyers');
    if (reply.ok) setDone(saidOf(reply.value));
  };
  if (!lastYear && !done) return null;
  return (
    <>
      <h2>Last year’s buyers</h2>
      {done && <Notice kind="done" title={done} />}
      {refusal && <Notice kind="stop" title={refusal.message} />}
      {lastYear && (
        <>
          <p className="small">
            From {lastYear.from}, under the numbers they had. Nobody is cleared by it: look at licence and exemption
            first.
          </p>
          {asked !== undefined ? (
            <AskedFirst
              yes={asked === 1 ? 'Yes, register 1 buyer' : `Yes, register ${asked} buyers`}
              busy={busy}
              act={() => void carry(asked)}
              leave={() => setAsked(undefined)}
            >
              {asked === 1
                ? 'Register 1 buyer under the number they had?'
                : `Register ${asked} buyers under the numbers they had?`}
            </AskedFirst>
          ) : (
            <Act
              words={lastYear.count === 1 ? 'Register 1 buyer again' : `Register ${lastYear.count} buyers again`}
              act={() => ask(lastYear.count)}
              disabled={busy}
            />
          )}
        </>
      )}
    </>
  );
}

function saidOf({ registered, numberTaken }: { registered: number[]; numberTaken: number[] }): string {
  const who = registered.length === 1 ? '1 buyer has' : `${registered.length} buyers have`;
  const taken = numberTaken.length === 0 ? '' : ` Their numbers are somebody else’s by now: ${numberTaken.join(', ')}.`;
  return `${who} their number again, not cleared yet.${taken}`;
}
