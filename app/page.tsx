export default function Page() {
  return (
    <main>
      <h1>Peltry</h1>
    </main>
  );
}
