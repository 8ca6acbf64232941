package quadrille.plan.audit;

import org.jspecify.annotations.Nullable;

/**
 * One thing that a course breaks.
 *
 * @param visit the visit's number in the plan, which may begin later than 1; its place where the
 *     plan's numbers do not rise; null where it concerns the whole course
 * @param message one sentence that stands by itself, with the figures found and due; teeth by the
 *     chart's numbering
 */
public record Finding(Rule rule, @Nullable Integer visit, String message) {

  /** On one line, such as {@code H4 length, visit 2: The visit is …}. */
  public String line() {
    return rule + " " + words();
  }

  /** The same without the rule's number, such as {@code length, visit 2: The visit is …}. */
  public String words() {
    return rule.words() + (visit == null ? "" : ", visit " + visit) + ": " + message;
  }
}
