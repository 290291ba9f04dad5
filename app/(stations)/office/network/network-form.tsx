'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { askOffice } from '#app/ui/requests.ts';
import type { NetworkSaid } from '#db/worker/queries.ts';
import type { Refusal } from '#lib/result/result.ts';

interface NetworkFormProps {
  readonly said: NetworkSaid;
  /** When it was said, in words; empty where nobody has said anything. */
  readonly when: string;
}

/** Further names of this machine, and whether staff may work on an open line. */
export function NetworkForm({ said, when }: NetworkFormProps) {
  const router = useRouter();
  const [names, setNames] = useState(said.hosts.join(' '));
  const [plainStaff, setPlainStaff] = useState(said.plainStaff);
  const [reason, setReason] = useState(said.reason);
  const [refusal, setRefusal] = useState<Refusal>();
  const errorOf = (field: string) => (refusal?.field?.startsWith(field) ? refusal.message : undefined);
  const save = async () => {
    const hosts = names.split(/[\s,]+/).filter((name) => name !== '');
    const answer = await askOffice('network.set', { hosts, plainStaff, reason: plainStaff ? reason : '' });
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
          error={errorOf('hosts')}
          wide
          value={names}
          onChange={(event) => setNames(event.target.value)}
        />
        <div className="wide">
          <CheckField
            label="Staff may work on a line that is not encrypted"
            checked={plainStaff}
            onChange={() => setPlainStaff(!plainStaff)}
          />
        </div>
        {plainStaff && (
          <TextField
            label="Why"
            hint="It goes into the log, and every screen of the staff says that the line is open."
            error={errorOf('reason')}
            wide
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        )}
      </div>
      <div className="acts">
        <button type="submit" className="act">
          Save
        </button>
      </div>
    </Form>
  );
}
