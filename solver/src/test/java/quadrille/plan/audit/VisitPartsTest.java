package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.GivenInjection;

/** Whether the practice has an injection that can be given where a visit lists it. */
final class VisitPartsTest {

  private static boolean given(GivenInjection given, UnaryOperator<Injection> change) {
    PlanBuilder plan = new PlanBuilder(new SmallChart().build(), new SmallPractice().build());
    plan.visit();
    Course course = Courses.parts(plan.course(), 1, visit -> visit.injections.add(given));
    Practice built = new SmallPractice().build();
    Map<String, Injection> injections = new LinkedHashMap<>(built.injections());
    injections.computeIfPresent("upper infiltration", (name, one) -> change.apply(one));
    return VisitParts.of(
                1,
                course.visits().get(0),
                List.of(),
                built.withInjections(injections),
                new Findings(course, Numbering.ISO3950))
            .shots()
            .get(0)
            .kind()
        != null;
  }

  private static GivenInjection at(String injection, Quadrant quadrant, int iso) {
    return new GivenInjection(
        injection, quadrant, iso == 0 ? null : Tooth.ofIso(iso), "lidocaine-2-100", 0.6);
  }

  @Test
  void anInfiltrationIsGivenAtAToothOfItsQuadrantThatItNumbs() {
    GivenInjection infiltration = at("upper infiltration", Quadrant.UL, 24);
    List<Integer> none = List.of();
    for (int position : List.of(4, 5)) {
      List<Integer> one = List.of(position);
      boolean here = position == 4;
      assertEquals(
          here, given(infiltration, in -> in.withPulp(one).withFacial(none).withLingual(none)));
      assertEquals(
          here, given(infiltration, in -> in.withPulp(none).withFacial(one).withLingual(none)));
      assertEquals(
          here, given(infiltration, in -> in.withPulp(none).withFacial(none).withLingual(one)));
    }
  }

  @Test
  void placesThatDoNotFitAreNone() {
    assertEquals(true, given(at("greater palatine", Quadrant.UL, 0), in -> in));
    assertEquals(false, given(at("greater palatine", Quadrant.LL, 0), in -> in));
    assertEquals(false, given(at("greater palatine", Quadrant.UL, 26), in -> in));
    assertEquals(false, given(at("upper infiltration", Quadrant.UL, 0), in -> in));
    assertEquals(false, given(at("upper infiltration", Quadrant.UL, 14), in -> in));
    assertEquals(false, given(at("unheard-of", Quadrant.UL, 0), in -> in));
  }
}
