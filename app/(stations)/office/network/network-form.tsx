'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { askOffice } from '#app/ui/requests.ts';
import type { NetworkSaid } from '#db/worker/queries.ts';
import type { Refusal } from '#lib/result/result.ts';

interface NetworkFormProps {
  readonly said: NetworkSaid;
  /** When it was said, in words; empty where nobody has said anything. */
  readonly when: string;
}

/** Further names of this machine, whether staff may work on an open line, and whether entries wait for a second laptop. */
export function NetworkForm({ said, when }: NetworkFormProps) {
  const router = useRouter();
  const [plainStaff, setPlainStaff] = useState(said.plainStaff);
  const [waitsForSecond, setWaitsForSecond] = useState(said.waitsForSecond);
  const [refusal, setRefusal] = useState<Refusal>();
  const errorOf = (field: string) => (refusal?.field?.startsWith(field) ? refusal.message : undefined);
  const { texts, field } = useTexts({ hosts: said.hosts.join(' '), reason: said.reason }, errorOf);
  const save = async () => {
    const hosts = texts.hosts.split(/[\s,]+/).filter((name) => name !== '');
    const answer = await askOffice('network.set', {
      ...{ hosts, plainStaff, waitsForSecond, reason: plainStaff ? texts.reason : '' },
    });
    setRefusal(answer.ok ? undefined : answer);
    if (answer.ok) router.refresh();
  };
  return (
    <Form className="sheet office-form" onEntered={save}>
      <h2>Names and the open line</h2>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      {when !== '' && (
        <p>
          Said by {said.worker} on {when}.
        </p>
      )}
      <div className="fields">
        <TextField
          label="Further names of this machine"
          hint="Such as hall.lan, with a space between. Its own names and addresses are known."
          wide
          {...field('hosts')}
        />
        <div className="wide">
          <CheckField
            label="Staff may work on a line that is not encrypted"
            checked={plainStaff}
            onTick={setPlainStaff}
          />
          <CheckField
            label="Wait for the second laptop before an entry counts as saved"
            checked={waitsForSecond}
            onTick={setWaitsForSecond}
          />
        </div>
        {plainStaff && (
          <TextField
            label="Why"
            hint="It goes into the log, and every screen of the staff says that the line is open."
            wide
            {...field('reason')}
          />
        )}
      </div>
      <SubmitActs label="Save" main />
    </Form>
  );
}
