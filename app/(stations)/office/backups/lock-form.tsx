'use client';

import { NewPassphrase, usePassphraseForm } from '#app/(stations)/office/passphrase-form.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';

const LOST =
  'Write the passphrase down and keep it away from the drive. Without it nobody can open these backups, not even you.';

/** A passphrase for the backups on a drive, another one, or none any more. It can be looked at instead of typed twice. */
export function LockForm({ locks }: { readonly locks: boolean }) {
  const { send, busy, answer, texts, field } = usePassphraseForm(['/api/office/backup-lock', 'office'], {
    passphrase: '',
  });
  return (
    <>
      {answer?.ok && locks && <Notice kind="done" title={`The next backup on a drive is locked. ${LOST}`} />}
      {answer && !answer.ok && <Notice kind="stop" title={answer.message} />}
      <details className="acts">
        <summary>{locks ? 'Another passphrase, or none' : 'Lock the backups on a drive'}</summary>
        <Form onEntered={() => send(texts)} aria-label="Lock the backups on a drive">
          <p>{LOST}</p>
          <NewPassphrase
            label="Passphrase of the backups"
            hint="At least 10 characters; a few words are best. Not one that somebody signs in with."
            show="Show it"
            {...field('passphrase')}
          />
          <SubmitActs label="Lock the backups" disabled={busy}>
            {locks && <Act words="Lock no more backups" act={() => send({})} disabled={busy} />}
          </SubmitActs>
        </Form>
      </details>
    </>
  );
}
