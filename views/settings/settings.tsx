// Settings: people and place, accounts, where the file lies, and the doors to backup, sources and words.
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import { PageTitle } from '../layout.tsx'
import { ButtonRow, LinkButton } from '../parts/button.tsx'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'

export interface SettingsFigures {
  people: readonly { name: string; born: Day; isChild: boolean; isRelative: boolean }[]
  placeSays: string
  sides: readonly { id: string; kind: SideKind; name: string; accounts: number }[]
  dataFile: string
  passphraseSet: boolean
}

export interface SettingsDoor {
  href: string
  name: string
  says: string
}

export const SettingsPage = (props: { figures: SettingsFigures; doors: readonly SettingsDoor[] }) => {
  const { figures } = props
  return (
    <>
      <PageTitle purpose="Who you are, which accounts there are, and where your data is stored.">
        Settings
      </PageTitle>
      <p class="answer">
        All of it is in one file on this computer.{' '}
        {figures.passphraseSet ? 'A passphrase locks Dooryard.' : 'No passphrase is set.'}
      </p>
      <div class="columns">
        <PeopleSection figures={figures} />
        <BooksSection figures={figures} />
      </div>
      <section aria-labelledby="more-title">
        <h2 id="more-title">More</h2>
        <ul class="doors">
          {props.doors.map((door) => (
            <li>
              <a href={door.href}>{door.name}</a>
              <span class="hint">: {door.says}</span>
            </li>
          ))}
        </ul>
      </section>
      <section aria-labelledby="file-title">
        <h2 id="file-title">Where your data is stored</h2>
        <p>
          <code>{figures.dataFile}</code>
        </p>
        <p class="hint">
          Books, plans and settings are in this one file; copies and attachments are in the same folder.
        </p>
        <p>
          To note goods, miles and hours on a phone in the home network:{' '}
          <a href="/farm/notebook/phone">how it is paired, step by step</a>.
        </p>
      </section>
    </>
  )
}

const PeopleSection = ({ figures }: { figures: SettingsFigures }) => (
  <section aria-labelledby="people-title">
    <h2 id="people-title">People and place</h2>
    {figures.people.length === 0 ? (
      <EmptyState href="/settings/people" action="Say who you are">
        No one is entered yet. Ages decide when Medicare and Social Security begin.
      </EmptyState>
    ) : (
      <>
        <ul class="due">
          {figures.people.map((person) => (
            <li>
              <span>
                {person.name}
                {person.isChild ? <span class="hint"> child</span> : null}
                {person.isRelative ? <span class="hint"> adult relative</span> : null}
              </span>
              <span>born {dayName(person.born)}</span>
            </li>
          ))}
        </ul>
        <p>{figures.placeSays}</p>
        <LinkButton href="/settings/people">Change people and place</LinkButton>
        <p class="hint">
          A death, a separation, a birth, a child who leaves home is entered with its month:{' '}
          <a href="/runway/plan#events">life events</a>
        </p>
      </>
    )}
  </section>
)

const BooksSection = ({ figures }: { figures: SettingsFigures }) => (
  <section aria-labelledby="books-title">
    <h2 id="books-title">Books and accounts</h2>
    <ul class="due">
      {figures.sides.map((side) => (
        <li>
          <SideWord kind={side.kind}>{side.name}</SideWord>
          <span>{side.accounts} accounts</span>
        </li>
      ))}
    </ul>
    <ButtonRow>
      <LinkButton quiet href="/settings/accounts">
        Accounts
      </LinkButton>
      <LinkButton quiet href="/settings/sides/new">
        Add a side venture
      </LinkButton>
    </ButtonRow>
  </section>
)
