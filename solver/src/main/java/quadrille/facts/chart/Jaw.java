package quadrille.facts.chart;

/** Upper or lower jaw. */
public enum Jaw {
  UPPER,
  LOWER
}
