package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Half;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/** What is written reads back the same, to the stated decimals and to the second. */
final class PlanFileTest {

  @Example
  void everyPartHasItsPlace() {
    assertEquals(
        SampleCourses.file(2),
        PlanWriter.write(SampleCourses.everything(), Numbering.UNIVERSAL, SampleWords.WORDS));
  }

  /** But for what version 1 had no keys for. */
  @Example
  void aFileOfTheFirstVersionIsTheSameCourse() throws InvalidDocumentException {
    PlanFile first = PlanReader.read("plan-1.json", SampleCourses.file(1));
    Course second = PlanReader.read("plan-2.json", SampleCourses.file(2)).course();
    assertNull(first.numbering());
    Visit visit = second.visits().get(0);
    List<WatchSite> watch = List.of(new WatchSite.AsWritten("46: 7 mm"));
    HeldBack held = second.heldBack().get(0);
    assertEquals(
        new Course(
            second.caseName(),
            List.of(visit.withWatch(watch)),
            second.gapMinDays(),
            second.gapMaxDays(),
            second.reevaluateFromWeeks(),
            second.reevaluateToWeeks(),
            second.cost(),
            List.of(
                new HeldBack(
                    held.area(),
                    held.pass(),
                    held.aspect(),
                    held.teeth(),
                    new HeldBack.AsWritten("the weight is not known"))),
            second.assumptions(),
            second.cautions()),
        first.course());
  }

  @Example
  void numbersThatNoFileCanHoldAreRefused() {
    Course course = SampleCourses.everything();
    Visit visit = course.visits().get(0);
    Visit broken =
        new Visit(
            1,
            visit.numbSide(),
            30,
            Double.NaN,
            visit.areas(),
            visit.injections(),
            visit.doses(),
            0,
            0,
            0,
            0,
            visit.sequence(),
            visit.tray(),
            List.of(),
            List.of());
    assertEquals(
        "A plan file cannot hold the number (NaN).",
        assertThrows(
                IllegalArgumentException.class,
                () -> PlanWriter.writeFacts(with(course, List.of(broken)), Numbering.ISO3950))
            .getMessage());
  }

  private static Course with(Course c, List<Visit> visits) {
    return new Course(
        c.caseName(),
        visits,
        c.gapMinDays(),
        c.gapMaxDays(),
        c.reevaluateFromWeeks(),
        c.reevaluateToWeeks(),
        c.cost(),
        c.heldBack(),
        c.assumptions(),
        c.cautions());
  }

  @Property(tries = 200)
  void whatIsWrittenReadsBackTheSame(@ForAll("courses") Course course, @ForAll Numbering numbering)
      throws InvalidDocumentException {
    String text = PlanWriter.write(course, numbering, SampleWords.WORDS);
    PlanFile read = PlanReader.read("plan.json", text);
    assertEquals(text, PlanWriter.write(read, numbering, SampleWords.WORDS));
    assertEquals(text, PlanWriter.write(read.course(), numbering, SampleWords.WORDS));
    assertEquals(rounded(course), read.course());
    assertEquals(numbering, read.numbering());
    String facts = PlanWriter.writeFacts(course, numbering);
    assertEquals(read, PlanReader.read("plan.json", facts), "words say nothing of their own");
  }

  @Property(tries = 1000)
  void wholeSecondsAreRecovered(@ForAll("seconds") int second) {
    assertEquals(second, PlanFile.seconds(PlanFile.minutes(second).doubleValue()));
  }

  @Provide
  Arbitrary<Integer> seconds() {
    return Arbitraries.integers().between(0, 86_400);
  }

  /** The stated rounding: shares, risk and volumes at four decimals, mg at two. */
  private static Course rounded(Course course) {
    List<Visit> visits = new ArrayList<>();
    for (Visit v : course.visits()) {
      visits.add(
          new Visit(
              v.number(),
              v.numbSide(),
              v.bookedMinutes(),
              round(v.overrunRisk(), 4),
              v.areas(),
              v.injections().stream()
                  .map(
                      g ->
                          new GivenInjection(
                              g.injection(), g.quadrant(), g.tooth(), g.agent(), round(g.ml(), 4)))
                  .toList(),
              v.doses().stream()
                  .map(
                      d ->
                          new Dose(
                              d.agent(),
                              round(d.mg(), 2),
                              round(d.maxMg(), 2),
                              round(d.share(), 4)))
                  .toList(),
              round(v.epinephrineMg(), 4),
              v.cartridges(),
              round(v.gelCartridges(), 4),
              v.sleeves(),
              v.sequence(),
              v.tray(),
              v.watch(),
              v.cautions()));
    }
    return with(course, visits);
  }

  /** By decimal text, half up; another way than the writer's. */
  private static double round(double value, int decimals) {
    return Double.parseDouble(
        new java.math.BigDecimal(Double.toString(value))
            .round(java.math.MathContext.UNLIMITED)
            .setScale(decimals, java.math.RoundingMode.HALF_UP)
            .toString());
  }

  @Provide
  Arbitrary<Course> courses() {
    return Combinators.combine(
            words(),
            visits().list().ofMaxSize(3),
            Arbitraries.integers().between(0, 30),
            Arbitraries.integers().between(0, 30),
            costs(),
            heldBack().list().ofMaxSize(3),
            assumptions().list().ofMaxSize(3),
            cautions().list().ofMaxSize(3))
        .as(
            (name, visits, gap, more, cost, held, resting, minding) ->
                new Course(
                    name, visits, gap, gap + more, gap, gap + more, cost, held, resting, minding));
  }

  private static Arbitrary<Assumption> assumptions() {
    return Arbitraries.oneOf(
        words().map(Assumption.AsWritten::new), Arbitraries.of(SampleNotes.assumptions()));
  }

  private static Arbitrary<Caution> cautions() {
    return Arbitraries.oneOf(
        words().map(Caution.AsWritten::new), Arbitraries.of(SampleNotes.cautions()));
  }

  private static Arbitrary<String> words() {
    return Arbitraries.strings()
        .withChars("abcXYZ 0-9,.;:/\\\"'()äß€漢\uD83E\uDDB7%&<>{}[]~\u2028")
        .ofMinLength(1)
        .ofMaxLength(60)
        .filter(text -> !text.isBlank() && wellFormed(text))
        .map(text -> "x" + text);
  }

  /** A lone half of a character pair is not text. */
  private static boolean wellFormed(String text) {
    return text.codePoints().noneMatch(point -> Character.getType(point) == Character.SURROGATE);
  }

  private static Arbitrary<Cost> costs() {
    return Arbitraries.maps(
            Arbitraries.of(CourseTerm.values()), Arbitraries.integers().between(0, 100_000))
        .ofMaxSize(6)
        .map(
            map -> {
              Map<CourseTerm, Long> terms = new LinkedHashMap<>();
              map.forEach((name, value) -> terms.put(name, (long) value));
              long sum = terms.values().stream().mapToLong(Long::longValue).sum();
              return new Cost(sum, sum / 2, terms);
            });
  }

  private static Arbitrary<Tooth> teeth() {
    return Arbitraries.of(Tooth.values());
  }

  private static Arbitrary<HeldBack> heldBack() {
    return Combinators.combine(
            areas(),
            Arbitraries.of(Pass.values()),
            Arbitraries.of(StepAspect.values()),
            teeth().list().uniqueElements().ofMinSize(1).ofMaxSize(8),
            reasons())
        .as(HeldBack::new);
  }

  private static Arbitrary<HeldBack.Reason> reasons() {
    Arbitrary<HeldBack.Reason> waiting =
        Combinators.combine(
                words(), Arbitraries.of(Alert.values()), Arbitraries.integers().between(0, 4))
            .as(
                (text, alert, kind) ->
                    switch (kind) {
                      case 0 -> new HeldBack.NoWeight();
                      case 1 -> new HeldBack.AsWritten(text);
                      case 2 -> new HeldBack.NoAgentServes(List.of(text), true);
                      case 3 -> new HeldBack.NoAgentServes(List.of(text, text), false);
                      default ->
                          new HeldBack.NoAgent(
                              List.of(
                                  new HeldBack.Refused(
                                      text, List.of(new Objection.Forbidden(alert, text)))));
                    });
    return Combinators.combine(waiting, Arbitraries.of(true, false))
        .as((reason, follows) -> follows ? new HeldBack.Follows(reason) : reason);
  }

  /** Half quadrants, whole and cut. */
  private static Arbitrary<AreaRef> areas() {
    return Combinators.combine(teeth(), teeth())
        .as(
            (one, other) -> {
              Half half = Half.of(one);
              Tooth front = one.position() <= other.position() ? one : other;
              Tooth back = front.equals(one) ? other : one;
              return AreaRef.of(one.quadrant(), half, back, front)
                  .orElse(AreaRef.whole(one.quadrant(), half));
            });
  }

  private static Arbitrary<WatchSite> watchSites() {
    Arbitrary<WatchSite.Probed> probed =
        Combinators.combine(
                Arbitraries.of(Aspect.values()),
                Arbitraries.integers().between(0, 2),
                Arbitraries.integers().between(0, 20).injectNull(0.2))
            .as(WatchSite.Probed::new);
    return Combinators.combine(
            teeth(),
            Arbitraries.of(true, false),
            probed.list().ofMaxSize(6),
            Arbitraries.integers().between(0, 3),
            Arbitraries.of(Feature.values()).list().uniqueElements().ofMaxSize(3),
            words())
        .as(
            (tooth, implant, sites, grade, features, text) ->
                sites.isEmpty() && !implant
                    ? new WatchSite.AsWritten(text)
                    : new WatchSite.OfTooth(tooth, implant, sites, grade, 3 - grade, features));
  }

  private static Arbitrary<Visit> visits() {
    Arbitrary<Double> share = Arbitraries.doubles().between(0, 1);
    Arbitrary<Double> mg = Arbitraries.doubles().between(0, 900);
    Arbitrary<Dose> doses = Combinators.combine(words(), mg, mg, share).as(Dose::new);
    Arbitrary<GivenInjection> injections =
        Combinators.combine(
                words(),
                teeth(),
                Arbitraries.of(true, false),
                words(),
                Arbitraries.doubles().between(0.02, 9))
            .as(
                (name, tooth, perTooth, agent, ml) ->
                    new GivenInjection(name, tooth.quadrant(), perTooth ? tooth : null, agent, ml));
    return Combinators.combine(
            Arbitraries.integers().between(1, 9),
            Arbitraries.of(NumbSide.values()),
            share,
            injections.list().ofMaxSize(4),
            doses.list().ofMaxSize(3),
            mg,
            sequences(),
            Combinators.combine(
                    words().list().ofMaxSize(4),
                    areas().list().ofMaxSize(4),
                    watchSites().list().ofMaxSize(4))
                .as(Said::new))
        .as(
            (number, side, risk, given, dose, amount, sequence, said) ->
                new Visit(
                    number,
                    side,
                    10 * number,
                    risk,
                    said.areas(),
                    given,
                    dose,
                    amount / 1000,
                    number,
                    amount / 300,
                    number % 2,
                    sequence,
                    said.texts(),
                    said.watch(),
                    said.texts().stream().<Caution>map(Caution.AsWritten::new).toList()));
  }

  private record Said(List<String> texts, List<AreaRef> areas, List<WatchSite> watch) {}

  private static Arbitrary<List<Entry>> sequences() {
    Arbitrary<Entry> entries =
        Combinators.combine(
                Arbitraries.integers().between(0, 12),
                Arbitraries.integers().between(1, 900),
                Combinators.combine(words(), areas()).as(Spot::new),
                Arbitraries.of(StepAspect.values()),
                Arbitraries.of(Pass.values()),
                Arbitraries.of(Power.values()),
                teeth().list().uniqueElements().ofMinSize(1).ofMaxSize(8))
            .as(PlanFileTest::entry);
    return entries
        .list()
        .ofMaxSize(12)
        .map(
            list -> {
              List<Entry> laid = new ArrayList<>();
              int now = 0;
              for (Entry entry : list) {
                laid.add(AtAnotherTime.entry(entry, now, entry.seconds()));
                now += entry.seconds();
              }
              return laid;
            });
  }

  private record Spot(String text, AreaRef area) {}

  private static Entry entry(
      int kind,
      int seconds,
      Spot spot,
      StepAspect aspect,
      Pass pass,
      Power power,
      List<Tooth> teeth) {
    String text = spot.text();
    Tooth tooth = teeth.get(0);
    return switch (kind) {
      case 0 -> new Entry.SetUp(0, seconds);
      case 1 ->
          new Entry.Inject(
              0, seconds, new InjectionRef(text, tooth.quadrant(), seconds > 450 ? tooth : null));
      case 2 -> new Entry.Wait(0, seconds, new Awaited.Numbness(List.of(tooth.quadrant())));
      case 3 -> new Entry.ChangeTip(0, seconds, text);
      case 4 -> new Entry.Reposition(0, seconds, spot.area(), aspect);
      case 8 -> new Entry.ApplyGel(0, seconds, text, spot.area(), aspect);
      case 9 -> new Entry.Wait(0, seconds, new Awaited.Gel(text));
      case 10 -> new Entry.AsWritten(0, seconds, Entry.Kind.REPOSITION, text);
      case 5 -> new Entry.Close(0, seconds);
      case 12 -> new Entry.Look(0, seconds);
      case 11 ->
          new Entry.OfFrame(0, seconds, Frame.Task.values()[seconds % Frame.Task.values().length]);
      default ->
          new Entry.Debride(
              0,
              seconds,
              spot.area(),
              aspect,
              pass,
              text,
              power,
              kind == 6,
              pass == Pass.IMPLANT_CARE ? teeth.subList(0, 1) : teeth);
    };
  }
}
