'use client';

import { useState } from 'react';
import { type Choice, Combobox } from '#app/ui/combobox.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { usePeople } from '#app/ui/use-people.ts';
import type { FoundPerson } from '#db/queries/people.ts';
import { PersonForm } from '../intake/person-form.tsx';
import { BuyerForm } from './buyer-form.tsx';

const NEW = 'new';

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

function newcomer(text: string): Choice {
  return { id: NEW, label: `Enrol “${text.trim()}” as a new person` };
}
