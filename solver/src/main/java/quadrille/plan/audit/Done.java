package quadrille.plan.audit;

import java.util.List;
import java.util.SortedSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.Entry;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/**
 * A step as the plan has it, beside the step of the work that it stands for.
 *
 * @param place the visit's place in the course, 1, 2, 3 …
 * @param index where in the visit's sequence
 * @param step the step of the work; null where the work has none like it
 * @param needs what must be numb, read from chart and practice
 */
record Done(
    int place, int index, Entry.Debride entry, @Nullable Step step, SortedSet<Target> needs) {

  /** Whether the plan has the step just as the work has it, its length aside. */
  boolean agrees() {
    return step != null && same(entry, step);
  }

  static boolean same(Entry.Debride entry, Step step) {
    return entry.area().equals(step.area().ref())
        && entry.pass() == step.pass()
        && entry.aspect() == step.aspect()
        && entry.insert().equals(step.insert().name())
        && entry.power() == step.power()
        && sorted(entry).equals(step.teeth());
  }

  static List<Tooth> sorted(Entry.Debride entry) {
    return entry.teeth().stream().sorted().toList();
  }

  /** In words, such as {@code UR posterior, fine, facial (14 15)}. */
  String words(Say say) {
    return words(entry, say);
  }

  static String words(Entry.Debride entry, Say say) {
    return say.area(entry.area())
        + ", "
        + entry.pass().word()
        + ", "
        + entry.aspect().word()
        + " ("
        + say.teeth(entry.teeth())
        + ")";
  }
}
