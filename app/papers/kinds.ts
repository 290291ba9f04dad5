/** Every kind of paper with the pages it is drawn as, and how it is named when it cannot be drawn. */
import { createElement, type ReactElement } from 'react';
import type { JoinCard } from '#lib/paper/join-card.ts';
import type { AlignmentPage, LabelPage, StubPage, TicketPage } from '#lib/paper/labels.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import { JoinCardPage } from './join-card.tsx';
import { LabelAlignment, Labels } from './labels.tsx';
import { ListPages } from './list.tsx';
import { SettlementSheetPages } from './settlement-sheet.tsx';
import { Stubs } from './stubs.tsx';
import type { PaperSize } from './styles.ts';
import { Tickets } from './tickets.tsx';

/** A finished model of any kind of paper. */
export type Paper = SettlementSheet | LabelPage | AlignmentPage | TicketPage | StubPage | ListPaper | JoinCard;

/** The pages of one paper. */
export function pagesOf(paper: Paper, size: PaperSize): ReactElement {
  switch (paper.paper) {
    case 'settlement-sheet':
      return createElement(SettlementSheetPages, { sheet: paper, size });
    case 'labels':
      return createElement(Labels, { sheet: paper });
    case 'label-alignment':
      return createElement(LabelAlignment, { sheet: paper });
    case 'tickets':
      return createElement(Tickets, { sheet: paper, size });
    case 'stubs':
      return createElement(Stubs, { sheet: paper, size });
    case 'join-card':
      return createElement(JoinCardPage, { card: paper, size });
    case 'list':
      return createElement(ListPages, { sheet: paper, size });
  }
}

/** Which paper it is, for whoever is told that it failed. */
export function nameOf(paper: Paper): string {
  switch (paper.paper) {
    case 'settlement-sheet':
      return `settlement sheet of seller number ${paper.sellerNo}`;
    case 'labels':
      return `labels of lots ${paper.labels.map(({ ticket }) => ticket.lotNo).join(', ')}`;
    case 'label-alignment':
      return 'label alignment';
    case 'tickets':
      return `tickets of lots ${paper.tickets.map(({ lotNo }) => lotNo).join(', ')}`;
    case 'stubs':
      return `stubs of checks ${paper.stubs.map(({ list }) => list.number?.words).join(', ')}`;
    case 'join-card':
      return 'card for joining';
    case 'list':
      return [paper.title, paper.number?.label, paper.number?.words].filter(Boolean).join(' ');
  }
}
