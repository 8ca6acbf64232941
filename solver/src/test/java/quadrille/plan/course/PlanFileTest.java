package quadrille.plan.course;

import static org.junit.jupiter.api.Assertions.assertEquals;
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
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/** What is written reads back the same, to the stated decimals and to the second. */
final class PlanFileTest {

  @Example
  void everyPartHasItsPlace() {
    assertEquals(
        """
        {
          "schema": "quadrille/plan/1",
          "case": "K-1042",
          "numbering": "iso3950",
          "visits": [
            {
              "visit": 1,
              "numbSide": "right",
              "expectedMinutes": 31.18,
              "bookedMinutes": 30,
              "overrunRisk": 0.1235,
              "areas": ["LR posterior 47-46", "UL posterior"],
              "tipChanges": 1,
              "injections": [
                { "injection": "inferior alveolar", "side": "right", "quadrant": "LR", "agent": "articaine-4-200", "ml": 1.5 },
                { "injection": "lower incisor infiltration", "side": "right", "quadrant": "LR", "tooth": "41", "agent": "articaine-4-200", "ml": 0.6 }
              ],
              "doses": [
                { "agent": "articaine-4-200", "mg": 84, "maxMg": 490, "share": 0.1714 },
                { "agent": "gel", "mg": 0.5, "maxMg": 5, "share": 0.1 }
              ],
              "epinephrineMg": 0.0105,
              "cartridges": 2,
              "gelCartridges": 0.5,
              "sleeves": 1,
              "sequence": [
                { "startMinute": 0, "minutes": 10, "do": "setup" },
                { "startMinute": 10, "minutes": 1.83, "do": "inject", "what": "inferior alveolar right" },
                { "startMinute": 11.83, "minutes": 0.94, "do": "inject", "what": "lower incisor infiltration 41" },
                { "startMinute": 12.77, "minutes": 7.23, "do": "wait", "what": "inferior alveolar right" },
                { "startMinute": 20, "minutes": 1.68, "do": "debride", "area": "LR posterior 47-46", "aspect": "facial", "pass": "fine", "insert": "slim right-curved", "power": "low", "needsNumb": true, "teeth": ["46", "47"] },
                { "startMinute": 21.68, "minutes": 1, "do": "change-tip", "to": "sleeved implant" },
                { "startMinute": 22.68, "minutes": 0.5, "do": "reposition", "to": "UL posterior" },
                { "startMinute": 23.18, "minutes": 3, "do": "debride", "area": "UL posterior", "aspect": "both", "pass": "implant-care", "insert": "sleeved implant", "power": "low", "needsNumb": false, "tooth": "26", "teeth": ["26"] },
                { "startMinute": 26.18, "minutes": 5, "do": "close" }
              ],
              "tray": ["slim right-curved", "sleeved implant"],
              "watch": ["46: 7 mm"],
              "cautions": ["Diabetes: book a short morning visit after a meal."]
            }
          ],
          "gapDays": { "min": 7, "max": 14 },
          "reevaluateWeeks": { "from": 6, "to": 12 },
          "totals": {
            "visits": 1,
            "chairMinutes": 31.18,
            "bookedMinutes": 30,
            "tipChanges": 1,
            "injections": 2,
            "cartridges": 2
          },
          "cost": {
            "seconds": 1457,
            "lowerBoundSeconds": 1400,
            "provenBest": false,
            "terms": { "chair time": 1337, "injections": 120 }
          },
          "heldBack": [
            { "area": "UR posterior", "pass": "fine", "aspect": "facial", "teeth": ["14", "16"], "reason": "the weight is not known" }
          ],
          "assumptions": ["fine pass: 194 s a tooth (Yukna 1997)", "say \\"assumption\\" or \\\\ a source"],
          "cautions": []
        }
        """,
        PlanWriter.write(SampleCourses.everything()));
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
                () -> PlanWriter.write(with(course, List.of(broken))))
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
  void whatIsWrittenReadsBackTheSame(@ForAll("courses") Course course)
      throws InvalidDocumentException {
    String text = PlanWriter.write(course);
    PlanFile read = PlanReader.read("plan.json", text);
    assertEquals(text, PlanWriter.write(read));
    assertEquals(text, PlanWriter.write(read.course()));
    assertEquals(rounded(course), read.course());
    assertEquals(PlanFile.of(read.course()), read);
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
            words().list().ofMaxSize(3))
        .as(
            (name, visits, gap, more, cost, held, texts) ->
                new Course(
                    name, visits, gap, gap + more, gap, gap + more, cost, held, texts, texts));
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
            words(),
            Arbitraries.of(Pass.values()),
            Arbitraries.of(StepAspect.values()),
            teeth().list().uniqueElements().ofMinSize(1).ofMaxSize(8),
            words())
        .as(
            (area, pass, aspect, teeth, reason) ->
                new HeldBack(
                    area,
                    pass.word(),
                    aspect.word(),
                    String.join(" ", teeth.stream().map(Tooth::toString).toList()),
                    reason));
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
            words().list().ofMaxSize(4))
        .as(
            (number, side, risk, given, dose, amount, sequence, texts) ->
                new Visit(
                    number,
                    side,
                    10 * number,
                    risk,
                    texts,
                    given,
                    dose,
                    amount / 1000,
                    number,
                    amount / 300,
                    number % 2,
                    sequence,
                    texts,
                    texts,
                    texts));
  }

  private static Arbitrary<List<Entry>> sequences() {
    Arbitrary<Entry> entries =
        Combinators.combine(
                Arbitraries.integers().between(0, 7),
                Arbitraries.integers().between(1, 900),
                words(),
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
                laid.add(moved(entry, now));
                now += entry.seconds();
              }
              return laid;
            });
  }

  private static Entry entry(
      int kind,
      int seconds,
      String text,
      StepAspect aspect,
      Pass pass,
      Power power,
      List<Tooth> teeth) {
    return switch (kind) {
      case 0 -> new Entry.SetUp(0, seconds);
      case 1 -> new Entry.Inject(0, seconds, text);
      case 2 -> new Entry.Wait(0, seconds, text);
      case 3 -> new Entry.ChangeTip(0, seconds, text);
      case 4 -> new Entry.Reposition(0, seconds, text);
      case 5 -> new Entry.Close(0, seconds);
      default ->
          new Entry.Debride(
              0,
              seconds,
              text,
              aspect,
              pass,
              text,
              power,
              kind == 6,
              pass == Pass.IMPLANT_CARE ? teeth.subList(0, 1) : teeth);
    };
  }

  private static Entry moved(Entry entry, int start) {
    int seconds = entry.seconds();
    if (entry instanceof Entry.SetUp) {
      return new Entry.SetUp(start, seconds);
    } else if (entry instanceof Entry.Inject e) {
      return new Entry.Inject(start, seconds, e.what());
    } else if (entry instanceof Entry.Wait e) {
      return new Entry.Wait(start, seconds, e.what());
    } else if (entry instanceof Entry.ChangeTip e) {
      return new Entry.ChangeTip(start, seconds, e.to());
    } else if (entry instanceof Entry.Reposition e) {
      return new Entry.Reposition(start, seconds, e.to());
    } else if (entry instanceof Entry.Debride e) {
      return new Entry.Debride(
          start,
          seconds,
          e.area(),
          e.aspect(),
          e.pass(),
          e.insert(),
          e.power(),
          e.needsNumb(),
          e.teeth());
    }
    return new Entry.Close(start, seconds);
  }
}
