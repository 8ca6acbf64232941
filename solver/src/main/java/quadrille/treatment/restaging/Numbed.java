package quadrille.treatment.restaging;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.course.Entry;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.Visit;
import quadrille.plan.work.Target;
import quadrille.treatment.restaging.OrderAtTheChair.Over;

/** Under which injections and gel of a visit its steps are worked on. */
public final class Numbed {

  private Numbed() {}

  /**
   * Under what a step that must be numb is worked on.
   *
   * @return places of injections and gel in the visit's sequence, ascending; empty for a step that
   *     need not be numb
   */
  public static List<Integer> by(Visit visit, Entry.Debride step, Practice practice) {
    return step.needsNumb()
        ? IntStream.range(0, visit.sequence().size())
            .filter(place -> numbs(visit.sequence().get(place), step, practice))
            .boxed()
            .toList()
        : List.of();
  }

  /**
   * Steps that were done, wholly or in part, though some of what numbs them was not given.
   *
   * @param ended what of the visit's sequence is over
   */
  public static List<Entry.Debride> workedWithout(
      Visit visit, List<Over> ended, Practice practice) {
    List<Entry> notGiven = entries(visit, ended, false);
    return entries(visit, ended, true).stream()
        .filter(Entry.Debride.class::isInstance)
        .map(Entry.Debride.class::cast)
        .filter(Entry.Debride::needsNumb)
        .filter(step -> notGiven.stream().anyMatch(entry -> numbs(entry, step, practice)))
        .toList();
  }

  /** Injections and gel that were not done, and under which some of what is left is worked on. */
  static List<Entry> notGiven(Visit visit, List<Over> ended, Practice practice) {
    List<Integer> over = ended.stream().map(Over::place).toList();
    List<Entry.Debride> left =
        IntStream.range(0, visit.sequence().size())
            .filter(place -> !over.contains(place))
            .mapToObj(visit.sequence()::get)
            .filter(Entry.Debride.class::isInstance)
            .map(Entry.Debride.class::cast)
            .filter(Entry.Debride::needsNumb)
            .toList();
    return entries(visit, ended, false).stream()
        .filter(entry -> left.stream().anyMatch(step -> numbs(entry, step, practice)))
        .toList();
  }

  private static List<Entry> entries(Visit visit, List<Over> ended, boolean done) {
    return ended.stream()
        .filter(one -> one.done() == done)
        .map(one -> visit.sequence().get(one.place()))
        .toList();
  }

  /** Whether an injection or gel numbs some of what a step works on. */
  static boolean numbs(Entry entry, Entry.Debride step, Practice practice) {
    if (entry instanceof Entry.ApplyGel gel) {
      return gel.area().equals(step.area())
          && gel.aspect().aspects().stream().anyMatch(step.aspect().aspects()::contains);
    }
    if (!(entry instanceof Entry.Inject inject)) {
      return false;
    }
    InjectionRef ref = inject.injection();
    @Nullable Injection injection = practice.injections().get(ref.injection());
    if (injection == null) {
      return true;
    }
    PlacedInjection placed = new PlacedInjection(injection, ref.quadrant(), ref.tooth());
    return step.teeth().stream()
        .anyMatch(
            tooth ->
                Stream.of(Target.Kind.values())
                    .anyMatch(kind -> placed.numbsWithAnyAgent(new Target(tooth, kind))));
  }
}
