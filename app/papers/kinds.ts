/** Every kind of paper with the pages it is drawn as, and how it is named when it cannot be drawn. */
import { createElement, type ReactElement } from 'react';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import type { PaperSize } from './look.ts';
import { SettlementSheetPages } from './settlement-sheet.tsx';

/** A finished model of any kind of paper. */
export type Paper = SettlementSheet;

/** The pages of one paper. */
export function pagesOf(paper: Paper, size: PaperSize): ReactElement {
  switch (paper.paper) {
    case 'settlement-sheet':
      return createElement(SettlementSheetPages, { sheet: paper, size });
  }
}

/** Which paper it is, for whoever is told that it failed. */
export function nameOf(paper: Paper): string {
  switch (paper.paper) {
    case 'settlement-sheet':
      return `settlement sheet of seller number ${paper.sellerNo}`;
  }
}
