/** Settlement sheets to print: those of the worked sales, and small ones made for what paper finds hard. */
import type { Person, SaleFacts } from '#lib/sale/facts.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import type { SellerFile, SheetAssociation, SheetStamp, SheetTag } from '#lib/settlement/parties.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';
import { readCase } from '#tests/support/case-folder.ts';
import { goods, sale, saleFacts, seller } from '#tests/support/facts.ts';

export const ASSOCIATION: SheetAssociation = {
  name: 'Lantern Ridge Fur Harvesters',
  street: '12 Ridge Road',
  city: 'Harrow',
  region: 'WY',
  postcode: '82000',
  phone: '307-555-0142',
  email: 'treasurer@lanternridge.example',
};

/** A head of the log as one looks; the digest is of no line in particular. */
export const HEAD = { seq: 412, hash: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08' };

export const STAMP: SheetStamp = { number: 1, issuedOn: '2026-02-28', head: HEAD };

interface Around {
  readonly people: readonly Person[];
  readonly tags: readonly SheetTag[];
}

/** The file of each seller number of a sale. */
export function filesOf(facts: SaleFacts, { people, tags }: Around): SellerFile[] {
  return facts.sellers.map((one) => {
    const lots = facts.lots.filter(({ sellerNo }) => sellerNo === one.sellerNo);
    const own = new Set(lots.map(({ lotNo }) => lotNo));
    return {
      association: ASSOCIATION,
      sale: facts.sale,
      goods: facts.goods,
      buyers: facts.buyers,
      people,
      seller: one,
      lots,
      outcomes: facts.outcomes.filter(({ lotNo }) => own.has(lotNo)),
      charges: facts.charges.filter(({ sellerNo }) => sellerNo === one.sellerNo),
      tags: tags.filter(({ lotNo }) => own.has(lotNo)),
    };
  });
}

export function filesOfCase(folder: string): SellerFile[] {
  const { facts, people, tags } = readCase(folder);
  return filesOf(facts, { people, tags: tags.map((tag) => ({ ...tag, condition: 'intact' as const })) });
}

/** The sheets of a worked sale, numbered in the order of the seller numbers. */
export function sheetsOfCase(folder: string): SettlementSheet[] {
  return filesOfCase(folder).map((file, at) => settlementSheet(file, { ...STAMP, number: at + 1 }));
}

export function person(personId: string, over: Partial<Person> = {}): Person {
  return {
    personId,
    name: `Person ${personId}`,
    street: '1 Mill Road',
    city: 'Harrow',
    region: 'WY',
    postcode: '82000',
    phone: '',
    email: '',
    memberNo: 'M1',
    memberUntil: '2026-12-31',
    licenceNo: 'L1',
    licenceRegion: 'US-WY',
    licenceExpires: '2026-12-31',
    payee: '',
    ...over,
  };
}

/** A seller's file where a test names only what it is about. */
export function sellerFile(over: Partial<SellerFile> = {}): SellerFile {
  const facts = saleFacts();
  return {
    association: ASSOCIATION,
    sale: sale(),
    goods: [goods('raccoon', { name: 'Raccoon' })],
    buyers: facts.buyers,
    people: [person('P1')],
    seller: seller(1),
    lots: [],
    outcomes: [],
    charges: [],
    tags: [],
    ...over,
  };
}
