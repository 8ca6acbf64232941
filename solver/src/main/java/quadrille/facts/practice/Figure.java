package quadrille.facts.practice;

/**
 * A number and how it is known.
 *
 * @param source a publication, "common practice, no source", "assumption", "from memory", or "the
 *     practice's own"
 * @param calibrated whether it was learned from recorded visits
 */
public record Figure(double value, String source, boolean calibrated) {

  /** What a bare number in a practice file is said to rest on. */
  public static final String OWN = "the practice's own";

  /** A number that was not learned from recorded visits. */
  public Figure(double value, String source) {
    this(value, source, false);
  }

  /** The value as a whole number. */
  public int asInt() {
    return (int) Math.round(value);
  }
}
