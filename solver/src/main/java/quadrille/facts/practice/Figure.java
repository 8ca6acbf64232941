package quadrille.facts.practice;

import java.util.Locale;

/**
 * A number and how it is known.
 *
 * @param source a publication, "common practice, no source", "assumption", "from memory", or "the
 *     practice's own"
 * @param basis what the source makes of it
 */
public record Figure(double value, String source, Basis basis) {

  /** What a number rests on. */
  public enum Basis {
    /** Whatever its source says. */
    STATED,
    /** Nobody's word: it is taken until somebody knows better. */
    ASSUMED,
    /** Learned from recorded visits. */
    CALIBRATED
  }

  /** What a bare number in a practice file is said to rest on. */
  public static final String OWN = "the practice's own";

  /** The word with which the source of an assumption begins in a file. */
  private static final String ASSUMED = "assumption";

  /** How version 0.1.0 marked a calibrated number: by how its source began. */
  private static final String CALIBRATED = "calibrated from ";

  /** A number that its source stands for. */
  public Figure(double value, String source) {
    this(value, source, Basis.STATED);
  }

  /** A number of a file, where the beginning of its source marks what it rests on. */
  public static Figure written(double value, String source) {
    return new Figure(
        value,
        source,
        source.startsWith(CALIBRATED)
            ? Basis.CALIBRATED
            : source.toLowerCase(Locale.ROOT).startsWith(ASSUMED) ? Basis.ASSUMED : Basis.STATED);
  }

  /** The value as a whole number. */
  public int asInt() {
    return (int) Math.round(value);
  }

  /** Whether it is an assumption. */
  public boolean assumed() {
    return basis == Basis.ASSUMED;
  }

  /** Whether it was learned from recorded visits. */
  public boolean calibrated() {
    return basis == Basis.CALIBRATED;
  }

  /** The whole number that is not above it, known in the same way. */
  public Figure floor() {
    return new Figure(Math.floor(value), source, basis);
  }
}
