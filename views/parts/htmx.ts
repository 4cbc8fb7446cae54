// htmx attributes that JSX cannot spell (two colons, a digit after one), as typed attributes to spread.

/** `<form {...onStatus(422, 'target:#errors')}>`: what to do with an answer of this status. `swap:none` leaves the page alone. */
export const onStatus = (status: number | '4xx' | '5xx', rule: string): Record<string, string> => ({
  [`hx-status:${status}`]: rule,
})

/** Sends the form in place: the answer's part with this id replaces the part on the page. Without script the whole page comes. */
export const refreshes = (
  id: string,
  address: { get: string } | { post: string },
  trigger?: string,
): Record<string, string> => ({
  ...('get' in address ? { 'hx-get': address.get } : { 'hx-post': address.post }),
  'hx-target': `#${id}`,
  'hx-swap': 'outerHTML',
  ...(trigger ? { 'hx-trigger': trigger } : {}),
})
