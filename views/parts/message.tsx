// What the house says to its people: notices, cautions, empty states and progress.
import type { Child } from 'hono/jsx'

interface NoticeProps {
  children: Child
  id?: string
  /** What was just done is told first: without it the focus would stand at the top of the page again. */
  takesFocus?: boolean
}

export const Notice = ({ children, id, takesFocus }: NoticeProps) => (
  <div class="notice" role="status" id={id} {...(takesFocus ? { tabindex: -1, autofocus: true } : {})}>
    {children}
  </div>
)

/** A notice that is a part of the page, with a heading or a name of its own. */
export const NoticeSection = (
  props: { children: Child; label: string } | { children: Child; titleId: string },
) => (
  <section
    class="notice"
    {...('label' in props ? { 'aria-label': props.label } : { 'aria-labelledby': props.titleId })}
  >
    {props.children}
  </section>
)

/** The usual caution where a figure can hurt someone; say first what this one is about. */
export const Caution = ({ children, askWhom }: { children?: Child; askWhom?: string }) => (
  <aside class="caution" aria-label="Caution">
    <p>
      {children}
      {children ? ' ' : ''}
      These are estimates, not advice, and local rules differ. Check with{' '}
      {askWhom ?? 'a licensed tax preparer, a marketplace navigator or the agency itself'} before you act on
      them.
    </p>
  </aside>
)

/** A part of a page that asks for its own figures: when they break, it alone does. */
export const Part = ({ of }: { of: () => Child }) => <>{of()}</>

/** Stands where a part of the page could not be made. */
export const BrokenPart = () => (
  <p class="notice broken-part" role="alert">
    This could not be worked out. The rest of the page is right, and nothing was changed; the log of the
    server says where it broke.
  </p>
)

/** Nothing here yet: says what this place is for and what to do next. */
export const EmptyState = ({
  children,
  href,
  action,
}: {
  children: Child
  href?: string
  action?: string
}) => (
  <div class="empty">
    <p>{children}</p>
    {href && action ? (
      <p>
        <a class="button" href={href}>
          {action}
        </a>
      </p>
    ) : null}
  </div>
)

export const Progress = ({ done, of, label }: { done: number; of: number; label: string }) => (
  <p class="field-label">
    <label>
      {label} <progress max={of} value={done} />
    </label>
  </p>
)
