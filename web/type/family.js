// The types of a denomination, the earliest first: what a timeline draws of each.
export const familyOf = (denom, reference) => Object.entries(reference.types).filter(([, type]) => type.denom === denom)
  .map(([key, { name, years, proofOnly }]) => ({ key, name, years, proofOnly }))
  .sort((a, b) => a.years[0] - b.years[0] || a.years.at(-1) - b.years.at(-1) || a.key.localeCompare(b.key));
