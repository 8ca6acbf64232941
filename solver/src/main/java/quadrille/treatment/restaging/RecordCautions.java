package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.List;
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
    List<String> cautions = new ArrayList<>(visit.cautions());
    for (CourseState.Found found : state.findings()) {
      if (found.finding() instanceof Observation.FailedInjection failed
          && visit.injections().stream().anyMatch(given -> same(failed, given))) {
        add(
            cautions,
            "the "
                + failed.ref().name(state.chart().numbering())
                + " did not take in visit "
                + found.visit()
                + " ("
                + found.date()
                + "): another technique or agent is the clinician's choice; test before starting");
      }
      if (found.finding() instanceof Observation.BrokenSleeve broken
          && visit.steps().stream().anyMatch(step -> step.teeth().contains(broken.tooth()))) {
        add(cautions, sleeve(found, broken));
      }
    }
    return visit.withCautions(cautions);
  }

  /** A course with what concerns all of it. */
  Course added(Course course) {
    List<String> cautions = new ArrayList<>(course.cautions());
    for (CourseState.Found found : state.findings()) {
      if (found.finding() instanceof Observation.BrokenSleeve broken
          && course.visits().stream()
              .noneMatch(
                  visit ->
                      visit.steps().stream()
                          .anyMatch(step -> step.teeth().contains(broken.tooth())))) {
        add(cautions, sleeve(found, broken));
      }
    }
    return course.withCautions(cautions);
  }

  private String sleeve(CourseState.Found found, Observation.BrokenSleeve broken) {
    return "a sleeve broke at implant "
        + state.chart().numbering().name(broken.tooth())
        + " in visit "
        + found.visit()
        + " ("
        + found.date()
        + "): look for what may have stayed, and for marks on the implant";
  }

  private static boolean same(Observation.FailedInjection failed, GivenInjection given) {
    return failed.injection().equals(given.injection())
        && failed.quadrant() == given.quadrant()
        && (failed.tooth() == null || failed.tooth().equals(given.tooth()));
  }

  private static void add(List<String> cautions, String caution) {
    if (!cautions.contains(caution)) {
      cautions.add(caution);
    }
  }
}
