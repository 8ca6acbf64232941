package quadrille.plan.audit;

import org.jspecify.annotations.Nullable;
import quadrille.plan.course.Entry;

/**
 * Pocket gel put in.
 *
 * @param step the step right after it; null where the gel names another area or aspect
 */
record GelUse(Entry.ApplyGel entry, @Nullable Done step) {

  /** In words, such as {@code pocket gel UR posterior facial}. */
  String words(Say say) {
    return entry.gel() + " " + say.area(entry.area()) + " " + entry.aspect().word();
  }
}
