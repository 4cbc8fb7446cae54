// Buttons and the row they stand in.
import type { Child } from 'hono/jsx'

interface ButtonProps {
  children: Child
  name?: string
  value?: string
  quiet?: boolean
  small?: boolean
  /** Sends the form to another address than the form's own. */
  formaction?: string
  /** Said to screen readers in place of the text, where the same word stands in every row. */
  label?: string
}

export const Button = (props: ButtonProps) => (
  <button
    type="submit"
    class={buttonClass(props)}
    name={props.name}
    value={props.value}
    formaction={props.formaction}
    aria-label={props.label}
  >
    {props.children}
  </button>
)

export const LinkButton = (props: { children: Child; href: string; quiet?: boolean; small?: boolean }) => (
  <a class={buttonClass(props)} href={props.href}>
    {props.children}
  </a>
)

/** Shows or hides the part with this id, which has `popover`: the browser does it, without script. */
export const MenuButton = (props: { children: Child; part: string; hides?: boolean }) => (
  <button
    type="button"
    class="button quiet small menu-button"
    popovertarget={props.part}
    popovertargetaction={props.hides ? 'hide' : undefined}
  >
    {props.children}
  </button>
)

export const PrintButton = () => (
  <button type="button" class="button quiet no-print" data-print>
    Print
  </button>
)

export const ButtonRow = ({ children }: { children: Child }) => <div class="button-row">{children}</div>

const buttonClass = ({ quiet, small }: { quiet?: boolean; small?: boolean }) =>
  ['button', quiet ? 'quiet' : '', small ? 'small' : ''].filter(Boolean).join(' ')
