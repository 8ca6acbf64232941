package quadrille.plan.course;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.JsonLayout;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassesTogether;

/**
 * Writes a course as the text of a plan file (JSON, docs/plan.schema.json). The same course gives
 * the same text, byte for byte.
 *
 * <p>Facts stand there as typed keys, beside the words that people read; the latter are left out
 * where nobody does. Units and rounding: minutes at two decimals, so that each entry of a sequence
 * starts where the one before it ended and whole seconds can be recovered; mg at two decimals,
 * epinephrine mg at four; mL, gel cartridges, shares and risks at four. Trailing zeros are left
 * out.
 */
public final class PlanWriter {

  /** The value of a plan file's {@code schema}. */
  public static final String SCHEMA = "quadrille/plan/2";

  /** What it was when a plan file held its facts as words. */
  static final String FIRST_SCHEMA = "quadrille/plan/1";

  static final List<String> SITES = List.of("distal", "middle", "mesial");

  private final Numbering numbering;
  private final @Nullable PlanWords words;
  private final NoteWriter notes = new NoteWriter(this);
  private final ReasonWriter reasons = new ReasonWriter(this);

  private PlanWriter(Numbering numbering, @Nullable PlanWords words) {
    this.numbering = numbering;
    this.words = words;
  }

  /**
   * The text of a course, with a line end after the last line.
   *
   * @param numbering how to name its teeth: as the chart does
   * @throws IllegalArgumentException if a number of the course is not finite
   */
  public static String write(Course course, Numbering numbering, PlanWords words) {
    return write(PlanFile.of(course), numbering, words);
  }

  /**
   * The text of a plan file, its sums as stated there.
   *
   * @param numbering how to name its teeth: as the chart does
   * @throws IllegalArgumentException if a number is not finite
   */
  public static String write(PlanFile plan, Numbering numbering, PlanWords words) {
    return new PlanWriter(numbering, words).text(plan);
  }

  /**
   * The text of a course without the words beside its facts, for a document that no person reads.
   *
   * @throws IllegalArgumentException if a number of the course is not finite
   */
  public static String writeFacts(Course course, Numbering numbering) {
    return new PlanWriter(numbering, null).text(PlanFile.of(course));
  }

  /** Changes against another plan, without words, as a course's log holds them. */
  public static List<Map<String, Object>> changes(List<PlanChange> changes, Numbering numbering) {
    NoteWriter notes = new PlanWriter(numbering, null).notes;
    return changes.stream().map(notes::change).toList();
  }

  /** What one visit fewer would need, without words. */
  public static Map<String, Object> oneVisitFewer(OneVisitFewer fewer) {
    return new PlanWriter(Numbering.ISO3950, null).reasons.fewer(fewer);
  }

  private String text(PlanFile plan) {
    Course course = plan.course();
    List<Object> visits = new ArrayList<>();
    for (int i = 0; i < course.visits().size(); i++) {
      Map<String, Object> visit = visit(course.visits().get(i), plan.visits().get(i));
      List<WhyVisit> why = course.reasons().of(course.visits().get(i).number());
      if (!why.isEmpty()) {
        visit.put("why", why.stream().map(reasons::why).toList());
      }
      visits.add(visit);
    }
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", SCHEMA);
    root.put("case", course.caseName());
    root.put("numbering", numbering.word());
    root.put("visits", visits);
    Map<String, Object> gap = range("min", course.gapMinDays(), "max", course.gapMaxDays());
    if (course.gapLeastDays() != course.gapMinDays()) {
      gap.put("least", course.gapLeastDays());
    }
    Integer longest = course.gapMostDays();
    if (longest != null) {
      gap.put("most", longest);
    }
    root.put("gapDays", gap);
    PassesTogether together = course.passesTogether();
    if (together != null) {
      root.put("passesTogether", together.word());
    }
    if (!course.finishWithin().isEmpty()) {
      root.put("finishWithin", course.finishWithin().stream().map(PlanWriter::deadline).toList());
    }
    if (course.grossFirst()) {
      root.put("grossFirst", true);
    }
    root.put(
        "reevaluateWeeks",
        range("from", course.reevaluateFromWeeks(), "to", course.reevaluateToWeeks()));
    root.put("totals", totals(plan.totals()));
    root.put("cost", cost(course.cost()));
    OneVisitFewer fewer = course.reasons().oneVisitFewer();
    if (fewer != null) {
      root.put("oneVisitFewer", reasons.fewer(fewer));
    }
    if (!course.wishes().isEmpty()) {
      root.put("wishes", course.wishes().stream().map(reasons::wish).toList());
    }
    root.put("heldBack", course.heldBack().stream().map(this::heldBack).toList());
    putAssumptions(root, course);
    put(root, course.cautions());
    List<PlanChange> changes = plan.changes();
    if (changes != null) {
      root.put("changes", changes.stream().map(notes::change).toList());
    }
    return JsonLayout.text(root);
  }

  private static Map<String, Object> deadline(Course.FinishWithin deadline) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("from", deadline.from());
    fields.put("to", deadline.to());
    fields.put("days", deadline.days());
    return fields;
  }

  private Map<String, Object> visit(Visit visit, PlanFile.VisitSums sums) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("visit", visit.number());
    fields.put("stopQuestions", visit.stopQuestions().stream().map(notes::stopQuestion).toList());
    fields.put("numbSide", visit.numbSide().word());
    fields.put("numbFront", sums.numbFront().stream().map(numbering::name).toList());
    fields.put("expectedMinutes", decimal(sums.expectedMinutes(), 2));
    fields.put("bookedMinutes", visit.bookedMinutes());
    fields.put("overrunRisk", decimal(visit.overrunRisk(), 4));
    say(fields, "areas", said -> visit.areas().stream().map(this::name).toList());
    fields.put("areaRefs", visit.areas().stream().map(this::area).toList());
    fields.put("tipChanges", sums.tipChanges());
    fields.put("injections", visit.injections().stream().map(this::injection).toList());
    Boolean rescue = sums.rescue();
    if (rescue != null) {
      fields.put("rescue", rescue ? ROOM : NO_ROOM);
    }
    fields.put("doses", visit.doses().stream().map(PlanWriter::dose).toList());
    fields.put("epinephrineMg", decimal(visit.epinephrineMg(), 4));
    fields.put("cartridges", visit.cartridges());
    fields.put("gelCartridges", decimal(visit.gelCartridges(), 4));
    fields.put("sleeves", visit.sleeves());
    fields.put("sequence", visit.sequence().stream().map(entry -> entry(visit, entry)).toList());
    fields.put("tray", visit.tray());
    say(
        fields,
        "watch",
        said -> visit.watch().stream().map(site -> said.watch(site, numbering)).toList());
    fields.put("watchSites", visit.watch().stream().map(this::watch).toList());
    put(fields, visit.cautions());
    return fields;
  }

  private void putAssumptions(Map<String, Object> root, Course course) {
    List<Assumption> all = course.assumptions();
    boolean cut = course.cutShort();
    say(
        root,
        "assumptions",
        said ->
            Stream.concat(
                    cut ? Stream.of(said.cutShort()) : Stream.empty(),
                    all.stream().map(said::assumption))
                .toList());
    root.put(
        "assumptionFacts",
        Stream.concat(
                cut ? Stream.of(NoteWriter.cutShort()) : Stream.empty(),
                all.stream().map(notes::assumption))
            .toList());
  }

  private void put(Map<String, Object> fields, List<Caution> cautions) {
    say(
        fields,
        "cautions",
        said -> cautions.stream().map(one -> said.caution(one, numbering)).toList());
    fields.put("cautionFacts", cautions.stream().map(notes::caution).toList());
  }

  Map<String, Object> injection(GivenInjection given) {
    Map<String, Object> fields = new LinkedHashMap<>();
    put(fields, given.ref());
    fields.put("agent", given.agent());
    fields.put("ml", decimal(given.ml(), 4));
    return fields;
  }

  void put(Map<String, Object> fields, InjectionRef injection) {
    fields.put("injection", injection.injection());
    fields.put("side", injection.quadrant().side().word());
    fields.put("quadrant", injection.quadrant().name());
    Tooth tooth = injection.tooth();
    if (tooth != null) {
      fields.put("tooth", numbering.name(tooth));
    }
  }

  private static Map<String, Object> dose(Dose dose) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("agent", dose.agent());
    fields.put("mg", decimal(dose.mg(), 2));
    fields.put("maxMg", decimal(dose.maxMg(), 2));
    fields.put("share", decimal(dose.share(), 4));
    return fields;
  }

  private Map<String, Object> entry(Visit visit, Entry entry) {
    BigDecimal start = PlanFile.minutes(entry.startSecond());
    BigDecimal end = PlanFile.minutes(entry.endSecond());
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("startMinute", start);
    fields.put("minutes", end.subtract(start));
    fields.put("do", entry.kind().word());
    switch (entry.kind()) {
      case INJECT, APPLY_GEL, WAIT, PROBE ->
          say(fields, "what", said -> said.entry(entry, numbering));
      case REPOSITION -> say(fields, "to", said -> said.entry(entry, numbering));
      case SET_UP,
          HISTORY,
          BLOOD_PRESSURE,
          CONSENT,
          RINSE,
          CHARTING,
          LOOK,
          CHANGE_TIP,
          DEBRIDE,
          INSTRUCT,
          LAST_LOOK,
          CLOSE -> {
        // What they say is typed.
      }
    }
    if (entry instanceof Entry.Inject inject) {
      put(fields, inject.injection());
    } else if (entry instanceof Entry.ApplyGel gel) {
      fields.put("gel", gel.gel());
      fields.put("areaRef", area(gel.area()));
      fields.put("aspect", gel.aspect().word());
    } else if (entry instanceof Entry.Wait waiting) {
      if (waiting.awaited() instanceof Awaited.Gel gel) {
        fields.put("gel", gel.gel());
      } else if (waiting.awaited() instanceof Awaited.Numbness numbness) {
        fields.put("numbness", numbness.quadrants().stream().map(Quadrant::name).toList());
      }
    } else if (entry instanceof Entry.ChangeTip change) {
      fields.put("to", change.to());
    } else if (entry instanceof Entry.Reposition move) {
      fields.put("areaRef", area(move.area()));
      fields.put("aspect", move.aspect().word());
    } else if (entry instanceof Entry.Probe probe) {
      fields.put("areas", probe.areas().stream().map(this::area).toList());
      fields.put("aspect", probe.aspect().word());
    } else if (entry instanceof Entry.Debride step) {
      put(fields, step.area());
      fields.put("aspect", step.aspect().word());
      fields.put("pass", step.pass().word());
      fields.put("insert", step.insert());
      fields.put("power", step.power().word());
      fields.put("needsNumb", step.needsNumb());
      List<InjectionRef> tested = visit.testedBefore(step);
      if (!tested.isEmpty()) {
        say(fields, "test", said -> tested.stream().map(one -> one.name(numbering)).toList());
      }
      if (step.pass() == Pass.IMPLANT_CARE && step.teeth().size() == 1) {
        fields.put("tooth", numbering.name(step.teeth().get(0)));
      }
      fields.put("teeth", teeth(step.teeth()));
    } else if (entry instanceof Entry.AsWritten written) {
      fields.put("asWritten", written.text());
    }
    return fields;
  }

  /** Words, where there is somebody to read them. */
  void say(Map<String, Object> fields, String key, Function<PlanWords, Object> what) {
    if (words != null) {
      fields.put(key, what.apply(words));
    }
  }

  private void put(Map<String, Object> fields, AreaRef area) {
    say(fields, "area", said -> name(area));
    fields.put("areaRef", area(area));
  }

  Numbering numbering() {
    return numbering;
  }

  String name(Tooth tooth) {
    return numbering.name(tooth);
  }

  private String name(AreaRef area) {
    return area.name(numbering);
  }

  Map<String, Object> area(AreaRef area) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("quadrant", area.quadrant().name());
    fields.put("half", area.half().word());
    Tooth from = area.from();
    Tooth to = area.to();
    if (from != null && to != null) {
      fields.put("from", numbering.name(from));
      fields.put("to", numbering.name(to));
    }
    return fields;
  }

  private List<String> teeth(List<Tooth> teeth) {
    return teeth.stream().map(numbering::name).toList();
  }

  private Map<String, Object> watch(WatchSite site) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (site instanceof WatchSite.OfTooth one) {
      fields.put("tooth", numbering.name(one.tooth()));
      fields.put("implant", one.implant());
      fields.put("sites", one.sites().stream().map(PlanWriter::probed).toList());
      fields.put("furcation", one.furcation());
      fields.put("mobility", one.mobility());
      fields.put("features", one.features().stream().map(Feature::word).toList());
    } else if (site instanceof WatchSite.AsWritten written) {
      fields.put("asWritten", written.text());
    }
    return fields;
  }

  private static Map<String, Object> probed(WatchSite.Probed site) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("aspect", site.aspect().word());
    fields.put("site", SITES.get(site.site()));
    Integer depth = site.depthMm();
    if (depth != null) {
      fields.put("depthMm", depth);
    }
    return fields;
  }

  private static Map<String, Object> totals(PlanFile.Totals totals) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("visits", totals.visits());
    fields.put("chairMinutes", decimal(totals.chairMinutes(), 2));
    fields.put("bookedMinutes", totals.bookedMinutes());
    fields.put("tipChanges", totals.tipChanges());
    fields.put("injections", totals.injections());
    fields.put("cartridges", totals.cartridges());
    return fields;
  }

  private static Map<String, Object> cost(Cost cost) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("seconds", cost.seconds());
    fields.put("lowerBoundSeconds", cost.lowerBoundSeconds());
    fields.put("provenBest", cost.provenBest());
    Map<String, Object> terms = new LinkedHashMap<>();
    cost.terms().forEach((term, seconds) -> terms.put(term.key(), seconds));
    fields.put("terms", terms);
    return fields;
  }

  private Map<String, Object> heldBack(HeldBack held) {
    Map<String, Object> fields = new LinkedHashMap<>();
    put(fields, held.area());
    fields.put("pass", held.pass().word());
    fields.put("aspect", held.aspect().word());
    fields.put("teeth", teeth(held.teeth()));
    say(fields, "reason", said -> said.reason(held.reason()));
    fields.put("because", reason(held.reason()));
    return fields;
  }

  private static Map<String, Object> reason(HeldBack.Reason reason) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (reason instanceof HeldBack.Follows follows) {
      fields.put("why", Because.FOLLOWS.word());
      fields.put("waiting", reason(follows.waiting()));
    } else if (reason instanceof HeldBack.WholeArea whole) {
      fields.put("why", Because.WHOLE_AREA.word());
      fields.put("waiting", reason(whole.waiting()));
    } else if (reason instanceof HeldBack.NoAgent none) {
      fields.put("why", Because.NO_AGENT.word());
      fields.put("agents", none.agents().stream().map(PlanWriter::refused).toList());
    } else if (reason instanceof HeldBack.NoAgentServes none) {
      fields.put("why", Because.NO_AGENT_SERVES.word());
      fields.put("agents", none.agents());
      fields.put("for", none.dose() ? "dose" : "lasting");
    } else if (reason instanceof HeldBack.AsWritten written) {
      fields.put("why", Because.AS_WRITTEN.word());
      fields.put("text", written.text());
    } else if (reason instanceof HeldBack.NoInjectionWished) {
      fields.put("why", Because.NO_INJECTION_WISHED.word());
    } else if (reason instanceof HeldBack.NoHistory) {
      fields.put("why", Because.NO_HISTORY.word());
    } else if (reason instanceof HeldBack.AwaitsChart) {
      fields.put("why", Because.AWAITS_CHART.word());
    } else {
      fields.put("why", Because.NO_WEIGHT.word());
    }
    return fields;
  }

  private static Map<String, Object> refused(HeldBack.Refused refused) {
    List<Object> why = new ArrayList<>();
    for (Objection refusal : refused.why()) {
      Map<String, Object> fields = new LinkedHashMap<>();
      if (refusal instanceof Objection.Forbidden forbidden) {
        fields.put("alert", forbidden.alert().word());
        fields.put("forbids", forbidden.part());
      } else if (refusal instanceof Objection.TooYoung young) {
        fields.put("fromAgeYears", young.fromAgeYears());
        Integer age = young.ageYears();
        if (age != null) {
          fields.put("ageYears", age);
        }
      } else {
        throw new IllegalArgumentException("No agent is refused alone for " + refusal + ".");
      }
      why.add(fields);
    }
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("agent", refused.agent());
    fields.put("refusals", why);
    return fields;
  }

  /** Whether a block that fails may be repeated within the day's doses. */
  static final String ROOM = "room for one more";

  static final String NO_ROOM = "no room: stop if it fails";

  /** The kinds of reason for which work is held back. */
  enum Because {
    NO_HISTORY("no-history"),
    NO_WEIGHT("no-weight"),
    NO_AGENT("no-agent"),
    NO_AGENT_SERVES("no-agent-serves"),
    NO_INJECTION_WISHED("no-injection-wished"),
    AWAITS_CHART("awaits-chart"),
    FOLLOWS("follows"),
    WHOLE_AREA("whole-area"),
    AS_WRITTEN("as-written");

    private final String word;

    Because(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }
  }

  private static Map<String, Object> range(String low, int from, String high, int to) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put(low, from);
    fields.put(high, to);
    return fields;
  }

  /** From the shortest decimal form of the value, so that 0.125 rounds as a person would. */
  private static BigDecimal decimal(double value, int places) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("A plan file cannot hold the number (" + value + ").");
    }
    return BigDecimal.valueOf(value).setScale(places, RoundingMode.HALF_UP);
  }
}
