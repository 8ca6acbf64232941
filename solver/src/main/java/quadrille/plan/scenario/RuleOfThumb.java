package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.practice.Practice;
import quadrille.plan.planning.GivenCourse;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.UnworkableException;

/**
 * How a mouth is shared out over visits without any reckoning (common practice, no source).
 *
 * <p>A visit is done as such visits usually are: all injections at the start, then the passes in
 * order (gross, fine, finishing, implant care), within a pass area by area, within an area facial
 * before lingual. Nobody thinks of tip changes or of waiting. The quadrants come in the order upper
 * right, lower right, upper left, lower left; where the patient has a chief complaint, from its
 * quadrant on.
 */
public enum RuleOfThumb {

  /** A quadrant a visit; a quadrant without work has none. */
  QUADRANT {
    @Override
    List<List<Quadrant>> visits(List<Quadrant> order, Fits fits) {
      return order.stream().map(List::of).toList();
    }
  },

  /** Half a mouth a visit; a half without work has none. */
  HALF {
    @Override
    List<List<Quadrant>> visits(List<Quadrant> order, Fits fits) {
      Side first = order.get(0).side();
      List<List<Quadrant>> visits = new ArrayList<>();
      visits.add(order.stream().filter(quadrant -> quadrant.side() == first).toList());
      visits.add(order.stream().filter(quadrant -> quadrant.side() != first).toList());
      visits.removeIf(List::isEmpty);
      return visits;
    }
  },

  /**
   * Each quadrant into the first visit that the longest visit still holds it in; one that no visit
   * holds starts a new one. Only length is looked at.
   */
  FIRST_FIT {
    @Override
    List<List<Quadrant>> visits(List<Quadrant> order, Fits fits) {
      List<List<Quadrant>> visits = new ArrayList<>();
      for (Quadrant quadrant : order) {
        List<Quadrant> into = null;
        for (List<Quadrant> visit : visits) {
          List<Quadrant> more = new ArrayList<>(visit);
          more.add(quadrant);
          if (into == null && fits.test(more)) {
            into = visit;
          }
        }
        if (into == null) {
          into = new ArrayList<>();
          visits.add(into);
        }
        into.add(quadrant);
      }
      return visits;
    }
  };

  /** As written in files. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static final List<Quadrant> USUAL_ORDER =
      List.of(Quadrant.UR, Quadrant.LR, Quadrant.UL, Quadrant.LL);

  /** Whether quadrants together make a visit that is not too long. */
  interface Fits extends Predicate<List<Quadrant>> {}

  abstract List<List<Quadrant>> visits(List<Quadrant> order, Fits fits);

  /**
   * The course that this rule comes to, legal or not, with what the audit finds; empty where
   * nothing is due, or all of it waits.
   *
   * @throws UnworkableException if the practice owns no insert that may do some of the work
   */
  public Optional<GivenCourse> course(Chart chart, Practice practice) throws UnworkableException {
    return GivenCourse.of(
        chart,
        practice,
        (steps, fits) -> {
          List<Quadrant> order = order(steps, chart.patient().startWith());
          return visits(order, some -> fits.test(inOrder(steps, some))).stream()
              .map(some -> inOrder(steps, some))
              .toList();
        });
  }

  /** The quadrants with work. */
  private static List<Quadrant> order(List<Step> steps, @Nullable Quadrant startWith) {
    List<Quadrant> order = new ArrayList<>();
    int first = startWith == null ? 0 : USUAL_ORDER.indexOf(startWith);
    for (int i = 0; i < USUAL_ORDER.size(); i++) {
      Quadrant quadrant = USUAL_ORDER.get((first + i) % USUAL_ORDER.size());
      if (steps.stream().anyMatch(step -> step.area().quadrant() == quadrant)) {
        order.add(quadrant);
      }
    }
    return order;
  }

  /** The steps of some quadrants as they are usually done. */
  private static List<Step> inOrder(List<Step> steps, List<Quadrant> quadrants) {
    return steps.stream()
        .filter(step -> quadrants.contains(step.area().quadrant()))
        .sorted(
            Comparator.comparing(Step::pass)
                .thenComparing(step -> quadrants.indexOf(step.area().quadrant()))
                .thenComparing(Step::area, Area.order())
                .thenComparing(Step::aspect, Comparator.comparing(StepAspect::ordinal))
                .thenComparing(Step::id))
        .toList();
  }
}
