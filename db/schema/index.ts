/** Every table of the book, in an order in which rows may be written without breaking a reference. */

export { journalEntry, posting } from './account.ts';
export { association, log, network, person, takeover, worker } from './association.ts';
export { arrival, bankMark, deposit, depositItem } from './bank.ts';
export { bid, handover, lot, outcome, tag } from './lot.ts';
export {
  charge,
  closing,
  drawerEntry,
  drawerPiece,
  dues,
  invoice,
  payment,
  sellerCheck,
  settlement,
  taking,
} from './money.ts';
export { memberCode, priceListRow, priceSetting } from './prices.ts';
export { buyer, commissionOverride, goods, particulars, partner, sale, seller } from './sale.ts';
export {
  calledAmount,
  liveArrival,
  liveBankMark,
  liveBid,
  liveCharge,
  liveDeposit,
  liveDues,
  livePayment,
  liveTaking,
  lotNow,
  newestHandover,
  newestOutcome,
  standingOutcome,
} from './views.ts';
