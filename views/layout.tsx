// The shell of every page: head, the pages in one row over the yard line (behind one button on a phone), main, and the foot.
import type { Child } from 'hono/jsx'
import type { HelpKey } from './help-texts.ts'
import { Button, MenuButton } from './parts/button.tsx'
import { FormId } from './parts/field.tsx'
import { Help } from './parts/help.tsx'
import { Notice } from './parts/message.tsx'

export interface Shell {
  title: string
  /** The page that counts as current in the row of pages. */
  currentPath: string
  pages: readonly { path: string; name: string }[]
  /** The rooms behind the current page; empty where it has one only. */
  rooms: readonly { path: string; name: string; isCurrent: boolean }[]
  assets: { css: string; script: string; htmx: string; mark: string }
  isSample: boolean
  /** Whether the sample was opened from the start page, so that it can be left the same way. */
  canLeaveSample: boolean
  /** Name of the plan that is open and not in use. */
  otherPlan: string | null
  notice?:
    | {
        text: string
        undo?: { action: string; label: string; formId: string } | undefined
        way?: { href: string; says: string } | undefined
      }
    | undefined
  /** What someone did at another screen since this browser's last page. */
  meanwhile: string | null
  /** Why nothing can be stored any more. */
  trouble: string | null
  canLock: boolean
  /** It answers a form that was sent: its address is one that only a form reaches. */
  isPosted: boolean
}

export const Layout = ({ shell, children }: { shell: Shell; children: Child }) => (
  <html lang="en" data-posted={shell.isPosted ? '' : undefined}>
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>{`${shell.title} · Dooryard`}</title>
      <link rel="icon" href={shell.assets.mark} type="image/svg+xml" />
      <link rel="stylesheet" href={shell.assets.css} />
      <script src={shell.assets.htmx} defer />
      <script src={shell.assets.script} defer />
    </head>
    <body>
      <a class="skip" href="#main">
        Skip to the page
      </a>
      {shell.isSample ? <SampleFlag canLeave={shell.canLeaveSample} /> : null}
      {shell.otherPlan === null ? null : <OtherPlanFlag name={shell.otherPlan} />}
      <header class="head">
        <a class="brand" href="/now">
          <Mark />
          Dooryard
        </a>
        {shell.pages.length > 0 ? <Menu shell={shell} /> : null}
        <div class="yard-line" aria-hidden="true" />
      </header>
      <main class="main" id="main" tabindex={-1}>
        {shell.trouble ? <Trouble says={shell.trouble} /> : null}
        {shell.notice ? <NoticeWithUndo {...shell.notice} /> : null}
        {shell.meanwhile ? (
          <Notice>
            <p>{shell.meanwhile}</p>
          </Notice>
        ) : null}
        {children}
      </main>
      <footer class="foot">
        <p>
          Everything stays in one file on this computer. <a href="/settings/words">Words we use</a>
        </p>
        {shell.canLock ? (
          <form method="post" action="/lock">
            <Button quiet small>
              Lock
            </Button>
          </form>
        ) : null}
      </footer>
    </body>
  </html>
)

/** Title, one-sentence purpose, help in its place: how every page begins. */
export const PageTitle = (props: { children: Child; purpose?: Child; help?: HelpKey | undefined }) => (
  <div>
    <h1>{props.children}</h1>
    {props.purpose ? <p class="purpose">{props.purpose}</p> : null}
    {props.help ? <Help on={props.help} /> : null}
  </div>
)

/** Opens without script; where there is room the button goes, and what it opens stands in the head (page.css). */
const Menu = ({ shell }: { shell: Shell }) => (
  <>
    <MenuButton part="menu">Pages</MenuButton>
    <div class="menu" id="menu" popover="auto">
      <PageRow shell={shell} />
      {shell.rooms.length > 0 ? <RoomRow shell={shell} /> : null}
      <MenuButton part="menu" hides>
        Close
      </MenuButton>
    </div>
  </>
)

const PageRow = ({ shell }: { shell: Shell }) => (
  <nav aria-label="Pages">
    <ul class="pages">
      {shell.pages.map((page) => (
        <li>
          <a href={page.path} aria-current={page.path === shell.currentPath ? 'page' : undefined}>
            {page.name}
          </a>
        </li>
      ))}
    </ul>
  </nav>
)

const RoomRow = ({ shell }: { shell: Shell }) => (
  <nav
    aria-label={`Parts of ${shell.pages.find((page) => page.path === shell.currentPath)?.name ?? 'this page'}`}
  >
    <ul class="rooms">
      {shell.rooms.map((room) => (
        <li>
          <a href={room.path} aria-current={room.isCurrent ? 'page' : undefined}>
            {room.name}
          </a>
        </li>
      ))}
    </ul>
  </nav>
)

const NoticeWithUndo = ({ text, undo, way }: NonNullable<Shell['notice']>) => (
  <Notice takesFocus>
    <p>
      {text}
      {way ? (
        <>
          {' '}
          <a href={way.href}>{way.says}</a>
        </>
      ) : null}
    </p>
    {undo ? (
      <form method="post" action={undo.action}>
        <FormId value={undo.formId} />
        <Button quiet small>
          {undo.label}
        </Button>
      </form>
    ) : null}
  </Notice>
)

const Trouble = ({ says }: { says: string }) => (
  <div class="error-summary" role="alert">
    <h2>Nothing is stored now</h2>
    <p>{says}</p>
    <p>
      <a href="/settings/backups">Save the open books, or restore a copy</a>
    </p>
  </div>
)

const SampleFlag = ({ canLeave }: { canLeave: boolean }) => (
  <div class="sample-flag">
    <p>You are in the sample farm. All names and numbers are made up.</p>
    {canLeave ? (
      <form method="post" action="/sample/leave">
        <Button quiet small>
          Back to your own books
        </Button>
      </form>
    ) : null}
  </div>
)

const OtherPlanFlag = ({ name }: { name: string }) => (
  <div class="sample-flag">
    <p>You are working on “{name}”, which is not the plan in use.</p>
    <form method="post" action="/runway/compare/open">
      <Button quiet small>
        Back to the plan in use
      </Button>
    </form>
  </div>
)

const Mark = () => (
  <svg viewBox="0 0 52 30" aria-hidden="true" focusable="false">
    <path class="side-house side-fill" d="M3 27V14l8-8 8 8v13z" />
    <path class="side-farm side-fill" d="M33 27V14l3-5 5-3 5 3 3 5v13z" />
    <path class="fence-stroke" d="M26 4v24M23 6h6M23 15h6M23 24h6" />
  </svg>
)
