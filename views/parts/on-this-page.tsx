// The parts of a long page, each a step away.
export const OnThisPage = ({ parts }: { parts: readonly { id: string; name: string }[] }) => (
  <nav class="on-this-page no-print" aria-label="On this page">
    <ul>
      {parts.map((part) => (
        <li>
          <a href={`#${part.id}`}>{part.name}</a>
        </li>
      ))}
    </ul>
  </nav>
)
