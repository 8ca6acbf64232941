package quadrille.facts.practice;

/**
 * A number and how it is known.
 *
 * @param source a publication, "common practice, no source", "assumption", "from memory", or "the
 *     practice's own"
 */
public record Figure(double value, String source) {

  /** What a bare number in a practice file is said to rest on. */
  public static final String OWN = "the practice's own";

  /** The value as a whole number. */
  public int asInt() {
    return (int) Math.round(value);
  }
}
