'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { type Answered, ask } from '#app/ui/requests.ts';

const LOST =
  'Write the passphrase down and keep it away from the drive. Without it nobody can open these backups, not even you.';

/** A passphrase for the backups on a drive, another one, or none any more. It can be looked at instead of typed twice. */
export function LockForm({ locks }: { readonly locks: boolean }) {
  const router = useRouter();
  const [shown, setShown] = useState(false);
  const [busy, setBusy] = useState(false);
  const [answer, setAnswer] = useState<Answered<object>>();
  const errorOf = (field: string) => (answer && !answer.ok && answer.field === field ? answer.message : undefined);
  const { texts, field, reset } = useTexts({ passphrase: '' }, errorOf);
  const send = async (body: object) => {
    setBusy(true);
    const given = await ask<object>('/api/office/backup-lock', 'office', body);
    setBusy(false);
    setAnswer(given);
    if (!given.ok) return;
    reset();
    router.refresh();
  };
  return (
    <>
      {answer?.ok && locks && <Notice kind="done" title={`The next backup on a drive is locked. ${LOST}`} />}
      {answer && !answer.ok && <Notice kind="stop" title={answer.message} />}
      <details className="acts">
        <summary>{locks ? 'Another passphrase, or none' : 'Lock the backups on a drive'}</summary>
        <Form onEntered={() => send(texts)} aria-label="Lock the backups on a drive">
          <p>{LOST}</p>
          <div className="fields">
            <TextField
              label="Passphrase of the backups"
              hint="At least 10 characters; a few words are best. Not one that somebody signs in with."
              type={shown ? 'text' : 'password'}
              autoComplete="new-password"
              spellCheck={false}
              {...field('passphrase')}
            />
          </div>
          <CheckField label="Show it" checked={shown} onTick={setShown} />
          <SubmitActs label="Lock the backups" disabled={busy}>
            {locks && <Act words="Lock no more backups" act={() => send({})} disabled={busy} />}
          </SubmitActs>
        </Form>
      </details>
    </>
  );
}
