export default function View(_: { brief?: boolean }) {
  return <p class="wait">Not here yet.</p>
}
