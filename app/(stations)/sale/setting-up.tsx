import Link from 'next/link';
import { Notice } from '#app/ui/notice.tsx';
import { emptyTyped } from '#lib/field/fields.ts';
import { CONTACT_FIELDS } from '#lib/person/fields.ts';
import { AssociationForm } from './association-form.tsx';
import { FirstUse, StepHead } from './first-use.tsx';

const NOBODY = {
  ...emptyTyped(CONTACT_FIELDS),
  name: '',
  paper: 'letter',
  timeZone: null,
} as const;

/** A book that begins: first whose it is, then its first sale. */
export function SettingUp({ named }: { readonly named: boolean }) {
  if (named) return <FirstUse />;
  const says =
    'This book is empty. Five steps lead to the first lot; everything but the goods’ short names can be changed later.';
  return (
    <section className="sheet">
      <StepHead step={1} title="Whose book is it?" says={says} />
      <AssociationForm start={NOBODY} act="Go on" />
      <p className="soft">
        Something to try first: <code>npm run demo</code> fills a book of its own.
      </p>
    </section>
  );
}

/** The last step before the intake opens, while nobody is entered who could sign in. */
export function FirstWorker() {
  return (
    <Notice kind="wait" title="Last step: who works here?">
      <p>Until the first worker is entered, whoever reaches this machine may do everything. Then open the intake.</p>
      <p>
        <Link className="button" href="/office/workers">
          Enter the first worker
        </Link>
      </p>
    </Notice>
  );
}

/** For a book from before time zones were kept: until one is said, an evening is dated the next day. */
export function NoTimeZone() {
  return (
    <Notice kind="wait" title="The time zone is not set.">
      <p>
        Until it is, the day on every paper is the day in UTC. <Link href="/sale/association">Set the time zone</Link>
      </p>
    </Notice>
  );
}
