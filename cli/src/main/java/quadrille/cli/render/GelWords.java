package quadrille.cli.render;

import org.jspecify.annotations.Nullable;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;

/**
 * Pocket gel in a visit's sequence. A plan file has it among the injections, with its whole name; a
 * reader is told that it is no injection, and where it goes.
 */
public final class GelWords {

  private GelWords() {}

  /** Area and aspect that gel is put into; null where an injection is given. */
  public static @Nullable String place(Visit visit, String what) {
    for (GivenInjection given : visit.injections()) {
      if (given.words().equals(what)) {
        return null;
      }
    }
    for (Entry.Debride step : visit.steps()) {
      String place = step.area() + " " + step.aspect().word();
      if (what.endsWith(" " + place)) {
        return place;
      }
    }
    return null;
  }

  /** What is waited for: the gel, or what the plan says. */
  public static String awaited(Visit visit, String what) {
    for (Entry entry : visit.sequence()) {
      if (entry instanceof Entry.Inject inject) {
        String place = place(visit, inject.what());
        if (place != null && inject.what().equals(what + " " + place)) {
          return "the gel";
        }
      }
    }
    return what;
  }
}
