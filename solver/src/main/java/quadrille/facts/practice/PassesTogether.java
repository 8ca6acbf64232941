package quadrille.facts.practice;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import quadrille.document.Node;

/**
 * Whether an area that is begun is finished in the same visit (H11).
 *
 * @param days most days from an area's first pass to its last; 0 for the same visit, null for no
 *     limit
 */
public record PassesTogether(@Nullable Integer days) {

  private static final int MOST_DAYS = 365;

  /** All passes of an area lie in one visit. */
  public static final PassesTogether SAME_VISIT = new PassesTogether(0);

  /** Each pass may lie in a visit of its own. */
  public static final PassesTogether FREE = new PassesTogether(null);

  /** What may be written. */
  private static final String ALLOWED = "same-visit, free, or within-days N with N from 1 to 365";

  private static final Pattern WITHIN = Pattern.compile("within-days ([1-9]\\d{0,2})");

  public PassesTogether {
    if (days != null && (days < 0 || days > MOST_DAYS)) {
      throw new IllegalArgumentException("The days (" + days + ") must be 0 to 365.");
    }
  }

  /** From how it is written; a fault where it is not one of the allowed. */
  public static PassesTogether read(Node node) {
    String word = node.text();
    Matcher within = WITHIN.matcher(word);
    if (within.matches() && Integer.parseInt(within.group(1)) <= MOST_DAYS) {
      return new PassesTogether(Integer.parseInt(within.group(1)));
    }
    if (word.equals(FREE.word())) {
      return FREE;
    }
    if (!word.equals(SAME_VISIT.word())) {
      node.fault(ALLOWED);
    }
    return SAME_VISIT;
  }

  /** As written in a practice file. */
  public String word() {
    return days == null ? "free" : days == 0 ? "same-visit" : "within-days " + days;
  }

  /** Whether a later pass has so many days. */
  public boolean deadline() {
    return days != null && days > 0;
  }

  public boolean sameVisit() {
    return days != null && days == 0;
  }
}
