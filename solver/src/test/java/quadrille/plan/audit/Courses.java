package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import quadrille.facts.chart.AreaRef;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WatchSite;

/** Copies of courses with one thing changed. */
final class Courses {

  private Courses() {}

  static Course visit(Course course, int number, UnaryOperator<Visit> change) {
    List<Visit> visits = new ArrayList<>(course.visits());
    visits.set(number - 1, change.apply(visits.get(number - 1)));
    return with(course, visits, course.cost(), course.heldBack());
  }

  static Course with(Course c, List<Visit> visits, Cost cost, List<HeldBack> heldBack) {
    return c.withVisits(visits).withCost(cost).withHeldBack(heldBack);
  }

  static Course cost(Course course, UnaryOperator<Cost> change) {
    return with(course, course.visits(), change.apply(course.cost()), course.heldBack());
  }

  /** Days between visits, which no deadline brings down. */
  static Course gap(Course c, int min, int max) {
    return c.withGapMinDays(min).withGapMaxDays(max).withGapLeastDays(min);
  }

  /** A visit whose parts can be set. */
  static final class Parts {
    int number;
    NumbSide numbSide;
    int bookedMinutes;
    double overrunRisk;
    List<AreaRef> areas;
    List<GivenInjection> injections;
    List<Dose> doses;
    double epinephrineMg;
    int cartridges;
    double gelCartridges;
    int sleeves;
    List<Entry> sequence;
    List<String> tray;
    List<WatchSite> watch;

    Parts(Visit visit) {
      number = visit.number();
      numbSide = visit.numbSide();
      bookedMinutes = visit.bookedMinutes();
      overrunRisk = visit.overrunRisk();
      areas = new ArrayList<>(visit.areas());
      injections = new ArrayList<>(visit.injections());
      doses = new ArrayList<>(visit.doses());
      epinephrineMg = visit.epinephrineMg();
      cartridges = visit.cartridges();
      gelCartridges = visit.gelCartridges();
      sleeves = visit.sleeves();
      sequence = new ArrayList<>(visit.sequence());
      tray = new ArrayList<>(visit.tray());
      watch = new ArrayList<>(visit.watch());
    }

    Visit build() {
      return new Visit(
          number,
          numbSide,
          bookedMinutes,
          overrunRisk,
          areas,
          injections,
          doses,
          epinephrineMg,
          cartridges,
          gelCartridges,
          sleeves,
          sequence,
          tray,
          watch,
          List.of());
    }
  }

  static Course parts(Course course, int number, java.util.function.Consumer<Parts> change) {
    return visit(
        course,
        number,
        visit -> {
          Parts parts = new Parts(visit);
          change.accept(parts);
          return parts.build();
        });
  }
}
