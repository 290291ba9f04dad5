import { emptyTyped } from '#lib/field/fields.ts';
import { CONTACT_FIELDS } from '#lib/person/fields.ts';
import { AssociationForm } from './association-form.tsx';
import { FirstUse, StepHead } from './first-use.tsx';

const NOBODY = { ...emptyTyped(CONTACT_FIELDS), name: '', paper: 'letter', timeZone: null } as const;

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
