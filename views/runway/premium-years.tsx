// What simulations do with premiums, in the words of the plan as it is saved.
export const PremiumYears = ({ words }: { words: { says: string; source: string | null } }) => (
  <section aria-labelledby="premium-years-title">
    <h2 id="premium-years-title">Premiums in simulations, as the plan is saved</h2>
    <p>{words.says}</p>
    {words.source === null ? null : (
      <>
        <p class="figure-note">{words.source}</p>
        <p>
          <a href="/cover/place">The premiums year by year, on Health</a>
        </p>
      </>
    )}
  </section>
)
