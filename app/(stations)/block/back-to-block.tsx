/** From the Block's other pages back to the lot that is up. */
export function BackToBlock({ saleId }: { readonly saleId: number }) {
  return (
    <p className="acts">
      <a className="button" href={`/block?sale=${saleId}`}>
        Back to the Block
      </a>
    </p>
  );
}
