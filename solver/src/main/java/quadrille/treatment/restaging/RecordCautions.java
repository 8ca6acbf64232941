package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.List;
import quadrille.plan.course.Before;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Course;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Observation;

/** What earlier visits found that the clinician is asked to mind in those to come. */
final class RecordCautions {
  private final CourseState state;

  RecordCautions(CourseState state) {
    this.state = state;
  }

  /** A visit with what concerns it. */
  Visit added(Visit visit) {
    List<Caution> cautions = new ArrayList<>(visit.cautions());
    for (CourseState.Found found : state.findings()) {
      if (found.finding() instanceof Observation.FailedInjection failed
          && visit.injections().stream().anyMatch(given -> same(failed, given))) {
        add(cautions, new Caution.DidNotTake(failed.ref(), found.visit(), found.date()));
      }
      if (found.finding() instanceof Observation.BrokenSleeve broken
          && visit.steps().stream().anyMatch(step -> step.teeth().contains(broken.tooth()))) {
        add(cautions, new Caution.SleeveBroke(broken.tooth(), found.visit(), found.date()));
      }
    }
    return visit.withCautions(cautions);
  }

  /** The first visit with what was given earlier on its day. */
  static Visit givenEarlier(Visit visit, Before before) {
    if (before.given().isEmpty() && before.gelCartridges().isEmpty()) {
      return visit;
    }
    List<Caution> cautions = new ArrayList<>(visit.cautions());
    double gel = before.gelCartridges().values().stream().mapToDouble(Double::doubleValue).sum();
    cautions.add(0, new Caution.GivenThatDay(before.given(), gel));
    return visit.withCautions(cautions);
  }

  /** A course with what concerns all of it. */
  Course added(Course course) {
    List<Caution> cautions = new ArrayList<>(course.cautions());
    for (CourseState.Found found : state.findings()) {
      if (found.finding() instanceof Observation.BrokenSleeve broken
          && course.visits().stream()
              .noneMatch(
                  visit ->
                      visit.steps().stream()
                          .anyMatch(step -> step.teeth().contains(broken.tooth())))) {
        add(cautions, new Caution.SleeveBroke(broken.tooth(), found.visit(), found.date()));
      }
    }
    return course.withCautions(cautions);
  }

  private static boolean same(Observation.FailedInjection failed, GivenInjection given) {
    return failed.injection().equals(given.injection())
        && failed.quadrant() == given.quadrant()
        && (failed.tooth() == null || failed.tooth().equals(given.tooth()));
  }

  private static void add(List<Caution> cautions, Caution caution) {
    if (!cautions.contains(caution)) {
      cautions.add(caution);
    }
  }
}
