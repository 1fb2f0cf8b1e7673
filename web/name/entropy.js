// Information in bits. A table holds a row a member, a column an answer: P(answer | member), rows one after the other.

const LN2 = Math.LN2;

/** −Σ p log₂ p; nothing for parts that cannot be. */
export function entropy(shares) {
  let sum = 0;
  for (let i = 0; i < shares.length; i++) if (shares[i] > 0) sum -= shares[i] * Math.log(shares[i]);
  return sum / LN2;
}

/** P(answer), given shares of the members. `only`: the members that count; all if left out. */
export function answerShares(shares, table, columns, only = null, into = new Float64Array(columns)) {
  into.fill(0);
  const count = only ? only.length : shares.length;
  for (let k = 0; k < count; k++) {
    const member = only ? only[k] : k;
    const share = shares[member];
    const at = member * columns;
    if (share > 0) for (let a = 0; a < columns; a++) into[a] += share * table[at + a];
  }
  return into;
}

/** H(answer | member) of every member. */
export function noise(table, columns) {
  const rows = new Float64Array(table.length / columns);
  for (let member = 0; member < rows.length; member++) rows[member] = entropy(table.subarray(member * columns, (member + 1) * columns));
  return rows;
}

/**
 * What the answer is expected to tell about the member: {gain: H(answer) − Σ share × H(answer | member), offered: H(answer)}.
 * `other`: {share, differs}, one more member that answers as those of the table do on average, but for a part `differs` in
 * which any answer is as likely.
 */
export function information(shares, table, columns, noises = noise(table, columns), only = null, other = null) {
  const answers = answerShares(shares, table, columns, only);
  let lost = 0;
  const count = only ? only.length : shares.length;
  for (let k = 0; k < count; k++) {
    const member = only ? only[k] : k;
    lost += shares[member] * noises[member];
  }
  if (other) {
    const sum = answers.reduce((a, b) => a + b, 0) || 1;
    const others = answers.map((share) => ((1 - other.differs) * share) / sum + other.differs / columns);
    lost += other.share * entropy(others);
    for (let a = 0; a < columns; a++) answers[a] += other.share * others[a];
  }
  const offered = entropy(answers);
  return { gain: Math.max(0, offered - lost), offered };
}
