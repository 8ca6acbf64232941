package quadrille.chart;

/** Upper or lower jaw. */
public enum Jaw {
  UPPER,
  LOWER
}
