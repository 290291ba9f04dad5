/** What every paper of a buyer begins with, and the caution it ends with. */

import type { BuyerFile } from '#lib/buyer/input.ts';
import type { BuyerPaperHead, PaperBuyer } from '#lib/buyer/model.ts';
import type { Licence } from '#lib/person/fields.ts';
import { saleOf } from '#lib/sheet/heading.ts';
import { associationOf } from '#lib/sheet/parties.ts';
import { addressLines, clean, dateInWords, joined } from '#lib/sheet/spell.ts';

/** Own words; a fact of the trade with no source of its own: common practice. */
export const BUYER_CAUTION =
  'Sales tax and exemptions are for your accountant to judge; licences, tags and permits for your wildlife agency.';

/** The part that all papers of a buyer share. Throws when the file does not hold the buyer's particulars. */
export function paperHead(file: BuyerFile): Pick<BuyerPaperHead, 'association' | 'sale' | 'buyer'> {
  return { association: associationOf(file.association), sale: saleOf(file.sale), buyer: paperBuyer(file) };
}

function paperBuyer({ buyer, people }: BuyerFile): PaperBuyer {
  const person = people.find(({ personId }) => personId === buyer.personId);
  if (person === undefined) throw new RangeError(`buyer number ${buyer.buyerNo}: no particulars of ${buyer.personId}`);
  return {
    buyerNo: buyer.buyerNo,
    name: clean(person.name),
    address: addressLines(person),
    licence: licenceWords('Fur buyer’s licence', buyer),
    exemption: buyer.taxExempt ? `No sales tax: exemption ${clean(buyer.exemptNo)}` : '',
  };
}

/** A licence with its State and last day: `Licence L1, US-WY, to 31 December 2026`; empty where there is none. */
export function licenceWords(name: string, { licenceNo, licenceRegion, licenceExpires }: Licence): string {
  if (licenceNo === '') return '';
  const until = licenceExpires === null ? '' : `to ${dateInWords(licenceExpires)}`;
  return `${name} ${joined([licenceNo, licenceRegion, until], ', ')}`;
}
