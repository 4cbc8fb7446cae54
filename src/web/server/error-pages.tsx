// Pages for what went wrong: an unknown address, a refused request, a broken page. None says more than the person needs.
import { BrokenPart } from '#views/parts/message.tsx'
import { answer, notFound, type PageContext } from '#web/forms/answer.tsx'

export const unknownPage = (c: PageContext) =>
  notFound(c, 'There is no page at this address. It may have been moved, or the address was mistyped.')

/** Requests refused by the middleware: too large, from another site, not a form. */
export const refusedPage = (c: PageContext, status: number, message: string) => {
  const says = message || refusals[status] || 'This request was not accepted. Go back and try again.'
  return answer(c, {
    title: 'Not accepted',
    status: status === 413 || status === 403 || status === 404 ? status : 422,
    figures: { error: says },
    page: () => (
      <>
        <h1>Not accepted</h1>
        <p role="alert">{says}</p>
        <p>
          <a href="/now">Go to Now</a>
        </p>
      </>
    ),
  })
}

/** A full disk, a folder that may not be written, a damaged file: said as it is, with what to do. */
export const diskPage = (c: PageContext, says: string) =>
  answer(c, {
    title: 'Not stored',
    status: 503,
    figures: { error: says },
    page: () => (
      <>
        <h1>Not stored</h1>
        <p role="alert">{says}</p>
        <p>
          <a href="/settings/backups">Save the open books, check them or restore a copy</a>
        </p>
      </>
    ),
  })

export const brokenPage = (c: PageContext) =>
  answer(c, {
    title: 'Something broke',
    status: 500,
    figures: { error: 'Something broke. Nothing was stored by this request.' },
    asPart: () => <BrokenPart />,
    page: () => (
      <>
        <h1>Something broke</h1>
        <p role="alert">
          This page could not be made, and nothing was stored by this request. The log of the server says
          where it broke. Your books are as they were.
        </p>
        <p>
          <a href="/settings">Check the books in Settings</a> or <a href="/now">go to Now</a>.
        </p>
      </>
    ),
  })

const refusals: Record<number, string> = {
  403: 'This form came from another site, so it was not accepted. Open the page again in Dooryard and send it from there.',
}
