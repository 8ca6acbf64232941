package quadrille.plan.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.mouths.MouthGenerator;
import quadrille.mouths.Profile;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.staging.Effort;

/** How a careful clinician goes through a visit, on generated mouths. */
@Tag("slow")
final class OrderOfAVisitTest {
  private static final Practice PRACTICE = PracticeReader.defaults();

  private static Course plan(int seed, Practice practice, Alert... alerts) throws Exception {
    Chart chart = MouthGenerator.mouth(seed, Profile.TREATMENT);
    Patient patient = new Patient(54, 72.0, 60, Set.of(alerts), null, false);
    PlanOutcome outcome =
        new CoursePlanner(Effort.QUICK, 1)
            .planOnly(chart.withPatient(patient), practice, new VisitRange(1, 6), false);
    return assertInstanceOf(PlanOutcome.Planned.class, outcome).course();
  }

  private static List<Frame.Task> frame(Visit visit) {
    return visit.sequence().stream()
        .filter(Entry.OfFrame.class::isInstance)
        .map(entry -> ((Entry.OfFrame) entry).task())
        .toList();
  }

  /** SDCEP, companion page of 2022: at most three teeth, then look at the bleeding. */
  @Test
  void withAnAnticoagulantThreeTeethComeBeforeALookAtTheBleeding() throws Exception {
    for (Visit visit : plan(3, PRACTICE, Alert.DIRECT_ORAL_ANTICOAGULANT).visits()) {
      Set<Tooth> before = new TreeSet<>();
      Set<Tooth> after = new TreeSet<>();
      boolean looked = false;
      for (Entry entry : visit.sequence()) {
        looked |= entry instanceof Entry.Look;
        if (entry instanceof Entry.Debride step) {
          (looked ? after : before).addAll(step.teeth());
        }
      }
      assertTrue(before.size() <= 3, visit::toString);
      assertEquals(looked, !after.isEmpty(), visit::toString);
      before.retainAll(after);
      assertEquals(Set.of(), before, visit::toString);
    }
  }

  /** Pemberton and Gibson 2012, BDJ: deaths after chlorhexidine in those allergic to it. */
  @Test
  void nobodyAllergicToChlorhexidineRinsesWithIt() throws Exception {
    Course course = plan(3, PRACTICE, Alert.CHLORHEXIDINE_ALLERGY);
    assertTrue(course.visits().stream().noneMatch(one -> frame(one).contains(Frame.Task.RINSE)));
  }

  /** Common practice: consent once, the history each time. */
  @Test
  void consentIsAskedForOnceAndTheHistoryEachTime() throws Exception {
    Course course = plan(3, PRACTICE);
    assertTrue(course.visits().size() > 1);
    for (Visit visit : course.visits()) {
      assertEquals(visit.number() == 1, frame(visit).contains(Frame.Task.CONSENT));
      assertEquals(Frame.Task.HISTORY, frame(visit).get(0));
    }
  }

  /** Common practice: nothing that can be felt before it is numb. */
  @Test
  void nothingIsTouchedBeforeTheFirstInjectionWhereThatIsAskedFor() throws Exception {
    Practice numbFirst = PRACTICE.withNumbing(PRACTICE.numbing().withNumbFirst(true));
    for (Visit visit : plan(3, numbFirst).visits()) {
      int firstStep = visit.steps().get(0).startSecond();
      assertTrue(
          visit.injections().isEmpty()
              || visit.sequence().stream()
                  .anyMatch(one -> one instanceof Entry.Inject && one.endSecond() <= firstStep),
          visit::toString);
    }
  }
}
