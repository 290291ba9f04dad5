/** What everybody at the tables must know, after the leaflets of wildlife agencies, and whose the last word is. */
export function Cautions() {
  return (
    <section aria-labelledby="cautions">
      <h2 id="cautions">At the tables</h2>
      <ul className="cautions">
        <li>Wear waterproof gloves for green goods and carcasses.</li>
        <li>Nothing to eat or drink at the tables; wash hands and tools afterwards.</li>
        <li>Tell the next table of green or whole goods.</li>
        <li>Tags and licences are the agency’s to judge: in doubt, send the seller to the officer’s table.</li>
      </ul>
    </section>
  );
}
