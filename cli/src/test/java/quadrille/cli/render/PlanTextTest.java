package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WatchSite;
import quadrille.plan.work.StepAspect;

final class PlanTextTest {

  private static String text(Numbering numbering, Course course) {
    return PlanText.of(
        SampleCourse.chart(numbering), PracticeReader.defaults(), course, false, false);
  }

  @Test
  void wholePage() {
    assertEquals(
        """
        Course for K-1042, charted 2026-03-02
        A proposal for a licensed clinician to check. Dose limits and codes follow local
        rules.
        Practice file: default practice. Maximum doses: conservative rule set.

        At a glance
        Visit  Numb    Booked  Risk  Inj.  Cart.   Dose  Tips  Areas
            1  right   60 min  17 %     2      1   12 %     1  UR post+ant, LR post+ant
            2  none    20 min  <1 %     0      0      -     0  LL post
          All          80 min           2      1            1

        Risk: of running over the booked time. Cart.: cartridges opened. Dose: share of
        the maximum dose. Tips: changes of insert. post, ant: posterior, anterior.

        2 visits, 65 min of chair time expected, 7 to 14 days between visits.
        Re-evaluation 6 to 12 weeks after the last visit.

        VISIT 1 of 2 - RIGHT side numb - 60 min booked
        Expected 48 min, 17 % risk of running over.

          From    Min
             0     10  Set up
            10      2  Inject   posterior superior alveolar right, 0.9 mL articaine 4 %
                                with epinephrine 1:200,000
            12      2  Inject   infiltration 12, 0.6 mL
            14      4  Gross    UR posterior facial (14 15 16 17), standard bent,
                                medium power
            18      1  Tip      slim curved right
            19      1  Wait     numbness UR
            20     23  Fine     UR posterior facial (14 15 16 17), low power, NUMB
            43     <1  Move     UR posterior lingual
            43      5  Close

        Tray      standard bent, slim curved right
        Doses     articaine 4 % with epinephrine 1:200,000: 60 of at most 490 mg (12 %)
                  1 cartridge opened, 1.5 mL given; epinephrine 0.0075 of at most 0.2 mg
        Watch     16: facial distal 8 mm, furcation 2
                  47: lingual mesial 7 mm
        Caution   Chart again after the gross pass.
                  A second caution.

        VISIT 2 of 2 - nothing numbed by injection - 20 min booked
        Expected 17 min, <1 % risk of running over.

          From    Min
             0     10  Set up
            10      2  Implant  LL posterior both aspects (36), sleeved for implants,
                                low power
            12      5  Close

        Tray      sleeved for implants; 1 new implant sleeve
        Watch     36: implant

        Cautions for the whole course
        - Diabetes: morning, short and fed.

        What the numbers rest on most
        - one
        - two
        - three
        - four
        - five
        - six
        --explain lists all 9.

        How good
        All goals weighed in chair time, this course costs 74.5 min. No course of
        2 visits can cost less than 73.3 min: this one is at most 1.6 % above the best
        there can be.
        """,
        text(Numbering.ISO3950, SampleCourse.course(List.of())));
  }

  @Test
  void frontTeethAcrossTheMidlineAreNoSide() {
    Course course = SampleCourse.course(List.of());
    Visit first = course.visits().get(0);
    Course left = course.withVisits(List.of(first.withNumbSide(NumbSide.LEFT)));
    String side = text(Numbering.ISO3950, left);
    assertTrue(side.contains(" - LEFT side, and the front across the midline, numb - "), side);
    assertTrue(side.contains("    1  left*   60 min"), side);
    assertTrue(side.contains("and front teeth across the midline, by infiltration."), side);
    Course none = course.withVisits(List.of(first.withNumbSide(NumbSide.NONE)));
    String front = text(Numbering.ISO3950, none);
    assertTrue(front.contains(" - the front across the midline numb - "), front);
    assertTrue(front.contains("    1  front   60 min"), front);
  }

  @Test
  void teethAreNamedAsTheChartNamesThem() {
    String text =
        text(Numbering.UNIVERSAL, SampleCourse.course(List.of(SampleCourse.held(17, 18))));
    assertTrue(text.contains("Teeth are numbered 1 to 32"), text);
    assertTrue(text.contains("UR posterior facial (5 4 3 2)"), text);
    assertTrue(text.contains("infiltration 7,"), text);
    assertTrue(text.contains("- UR posterior 1-2: fine (2 1)"), text);
    assertFalse(text.contains("(14 15"), text);
  }

  @Test
  void heldBackWorkStandsAtTheTopWithItsReasonOnce() {
    String text =
        text(
            Numbering.ISO3950,
            SampleCourse.course(List.of(SampleCourse.held(17, 18), SampleCourse.held(17))));
    String expected =
        """
        HELD BACK: THIS COURSE LEAVES OUT WORK
        The patient's weight is not charted.
        - UR posterior 18-17: fine (17 18)

        At a glance
        """;
    assertTrue(text.contains(expected), text);
    assertTrue(
        text.replaceAll("\\s+", " ")
            .contains("Work is held back: plan again first, then re-evaluate."),
        text);
    assertFalse(text.contains("Re-evaluation 6"), text);
  }

  @Test
  void everyAssumptionIsListedOnDemand() {
    String text =
        PlanText.of(
            SampleCourse.chart(Numbering.ISO3950),
            PracticeReader.defaults(),
            SampleCourse.course(List.of()),
            true,
            false);
    assertTrue(text.contains("What the numbers rest on\n- one\n"), text);
    assertTrue(text.contains("- nine\n"), text);
  }

  @Test
  void costAtItsBoundIsProvenBest() {
    Course course = SampleCourse.course(List.of());
    Cost cost = new Cost(4400, 4400, course.cost().terms());
    assertTrue(
        text(Numbering.ISO3950, with(course, course.caseName(), course.visits(), cost, "a"))
            .replaceAll("\\s+", " ")
            .endsWith(
                "How good Proven best. No other plan of 2 visits is better by this practice's"
                    + " weights: all goals weighed in chair time, it costs 73.3 min. "));
  }

  @Test
  void courseWithoutAVisitIsStillAPage() {
    Course course = SampleCourse.course(List.of());
    String text =
        text(
            Numbering.ISO3950,
            with(course, "K-2", List.of(), new Cost(0, 0, course.cost().terms()), "a"));
    assertTrue(text.contains("\nNo work is due by the practice's rules"), text);
    assertFalse(text.contains("0 visits"), text);
  }

  /** Whatever a file holds, the page keeps its width and its lines. */
  @Property(tries = 300)
  void hostileWordsKeepToThePage(@ForAll String words) {
    Course course = SampleCourse.course(List.of());
    Visit visit = course.visits().get(0);
    Visit hostile =
        new Visit(
            1,
            visit.numbSide(),
            visit.bookedMinutes(),
            visit.overrunRisk(),
            List.of(AreaRef.of("UR posterior")),
            visit.injections(),
            visit.doses(),
            visit.epinephrineMg(),
            visit.cartridges(),
            0,
            0,
            visit.sequence(),
            List.of(words),
            List.of(new WatchSite.AsWritten(words)),
            List.of(new Caution.AsWritten(words)));
    String text =
        text(Numbering.ISO3950, with(course, words, List.of(hostile), course.cost(), words));
    for (String line : text.split("\n", -1)) {
      assertTrue(Page.length(line) <= Page.WIDTH, line);
      assertTrue(line.codePoints().noneMatch(Character::isISOControl), line);
    }
  }

  private static Course with(
      Course course, String name, List<Visit> visits, Cost cost, String caution) {
    List<HeldBack> held =
        List.of(
            new HeldBack(
                AreaRef.of("UR posterior"),
                Pass.FINE,
                StepAspect.FACIAL,
                List.of(Tooth.ofIso(16)),
                new HeldBack.AsWritten(name)));
    return new Course(
        name,
        visits,
        0,
        0,
        6,
        12,
        cost,
        held,
        List.of(new Assumption.AsWritten(name)),
        List.of(new Caution.AsWritten(caution)));
  }
}
