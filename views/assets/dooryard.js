// The little script we need: one booking per press of a button, and a print button. Everything works without it.
document.addEventListener('submit', (event) => {
  const form = event.target
  if (event.defaultPrevented || !(form instanceof HTMLFormElement) || form.method !== 'post') return
  if (form.dataset.sent) {
    event.preventDefault()
    return
  }
  form.dataset.sent = 'yes'
  for (const button of form.querySelectorAll('button')) button.setAttribute('aria-disabled', 'true')
})

// Coming back by the Back button shows the page as it was: let the form be sent again.
addEventListener('pageshow', () => {
  for (const form of document.querySelectorAll('form[data-sent]')) {
    delete form.dataset.sent
    for (const button of form.querySelectorAll('button')) button.removeAttribute('aria-disabled')
  }
})

document.addEventListener('click', (event) => {
  if (event.target instanceof Element && event.target.closest('[data-print]')) print()
})

// An error summary asks for focus on arrival; browsers ignore a second autofocus after a partial swap.
const focusSummary = () => document.querySelector('.error-summary[autofocus]')?.focus()
addEventListener('DOMContentLoaded', focusSummary)
