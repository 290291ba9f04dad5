import type { Metadata } from 'next';
import type { Address } from '#app/station.ts';
import { HallMasthead } from '../../hall-masthead.tsx';
import { pricesGround } from '../ground.ts';
import { Answer } from './answer.tsx';
import { mineGround } from './ground.ts';
import { MineForm } from './mine-form.tsx';
import '../prices.css';

export const metadata: Metadata = { title: 'What would mine bring' };

/** A list of goods against last season's quarters, before and after commission and fees. */
export default async function Page({ searchParams }: { readonly searchParams: Address }) {
  const { book, association, seasons } = await pricesGround();
  const ground = mineGround(book, seasons, await searchParams);
  return (
    <>
      <HallMasthead association={association} here="/prices/mine" />
      <main id="main" className="page prices">
        <h1>What would mine bring?</h1>
        {ground ? (
          <>
            <p>
              Nobody knows. But you can see what the same goods would have brought at the prices of season{' '}
              {ground.season.season}: at what a quarter of the pieces brought or less, and at what three quarters did.
            </p>
            <Answer ground={ground} />
            <MineForm ground={ground} />
          </>
        ) : (
          <p>There is no season yet that is over, so there is nothing to reckon with. Come back after the first.</p>
        )}
      </main>
    </>
  );
}
