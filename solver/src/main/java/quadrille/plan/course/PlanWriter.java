package quadrille.plan.course;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.document.JsonLayout;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;

/**
 * Writes a course as the text of a plan file (JSON, docs/plan.schema.json). The same course gives
 * the same text, byte for byte.
 *
 * <p>Units and rounding: minutes at two decimals, so that each entry of a sequence starts where the
 * one before it ended and whole seconds can be recovered; mg at two decimals, epinephrine mg at
 * four; mL, gel cartridges, shares and risks at four. Trailing zeros are left out. Teeth are ISO
 * 3950 codes whatever the chart's numbering.
 */
public final class PlanWriter {

  /** The value of a plan file's {@code schema}. */
  public static final String SCHEMA = "quadrille/plan/1";

  static final String NUMBERING = "iso3950";

  private PlanWriter() {}

  /**
   * The text of a course, with a line end after the last line.
   *
   * @throws IllegalArgumentException if a number of the course is not finite
   */
  public static String write(Course course) {
    return write(PlanFile.of(course));
  }

  /**
   * The text of a plan file, its sums as stated there.
   *
   * @throws IllegalArgumentException if a number is not finite
   */
  public static String write(PlanFile plan) {
    Course course = plan.course();
    List<Object> visits = new ArrayList<>();
    for (int i = 0; i < course.visits().size(); i++) {
      visits.add(visit(course.visits().get(i), plan.visits().get(i)));
    }
    Map<String, Object> root = new LinkedHashMap<>();
    root.put("schema", SCHEMA);
    root.put("case", course.caseName());
    root.put("numbering", NUMBERING);
    root.put("visits", visits);
    root.put("gapDays", range("min", course.gapMinDays(), "max", course.gapMaxDays()));
    root.put(
        "reevaluateWeeks",
        range("from", course.reevaluateFromWeeks(), "to", course.reevaluateToWeeks()));
    root.put("totals", totals(plan.totals()));
    root.put("cost", cost(course.cost()));
    root.put("heldBack", course.heldBack().stream().map(PlanWriter::heldBack).toList());
    root.put("assumptions", course.assumptions());
    root.put("cautions", course.cautions());
    List<PlanChange> changes = plan.changes();
    if (changes != null) {
      root.put("changes", changes.stream().map(PlanWriter::change).toList());
    }
    return JsonLayout.text(root);
  }

  private static Map<String, Object> change(PlanChange change) {
    Map<String, Object> fields = new LinkedHashMap<>();
    Integer visit = change.visit();
    if (visit != null) {
      fields.put("visit", visit);
    }
    fields.put("what", change.what());
    fields.put("why", change.why());
    return fields;
  }

  private static Map<String, Object> visit(Visit visit, PlanFile.VisitSums sums) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("visit", visit.number());
    fields.put("numbSide", visit.numbSide().word());
    fields.put("expectedMinutes", decimal(sums.expectedMinutes(), 2));
    fields.put("bookedMinutes", visit.bookedMinutes());
    fields.put("overrunRisk", decimal(visit.overrunRisk(), 4));
    fields.put("areas", visit.areas());
    fields.put("tipChanges", sums.tipChanges());
    fields.put("injections", visit.injections().stream().map(PlanWriter::injection).toList());
    fields.put("doses", visit.doses().stream().map(PlanWriter::dose).toList());
    fields.put("epinephrineMg", decimal(visit.epinephrineMg(), 4));
    fields.put("cartridges", visit.cartridges());
    fields.put("gelCartridges", decimal(visit.gelCartridges(), 4));
    fields.put("sleeves", visit.sleeves());
    fields.put("sequence", visit.sequence().stream().map(PlanWriter::entry).toList());
    fields.put("tray", visit.tray());
    fields.put("watch", visit.watch());
    fields.put("cautions", visit.cautions());
    return fields;
  }

  private static Map<String, Object> injection(GivenInjection given) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("injection", given.injection());
    fields.put("side", given.quadrant().side().word());
    fields.put("quadrant", given.quadrant().name());
    Tooth tooth = given.tooth();
    if (tooth != null) {
      fields.put("tooth", tooth.toString());
    }
    fields.put("agent", given.agent());
    fields.put("ml", decimal(given.ml(), 4));
    return fields;
  }

  private static Map<String, Object> dose(Dose dose) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("agent", dose.agent());
    fields.put("mg", decimal(dose.mg(), 2));
    fields.put("maxMg", decimal(dose.maxMg(), 2));
    fields.put("share", decimal(dose.share(), 4));
    return fields;
  }

  private static Map<String, Object> entry(Entry entry) {
    BigDecimal start = PlanFile.minutes(entry.startSecond());
    BigDecimal end = PlanFile.minutes(entry.endSecond());
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("startMinute", start);
    fields.put("minutes", end.subtract(start));
    fields.put("do", entry.word());
    if (entry instanceof Entry.Inject inject) {
      fields.put("what", inject.what());
    } else if (entry instanceof Entry.Wait waiting) {
      fields.put("what", waiting.what());
    } else if (entry instanceof Entry.ChangeTip change) {
      fields.put("to", change.to());
    } else if (entry instanceof Entry.Reposition move) {
      fields.put("to", move.to());
    } else if (entry instanceof Entry.Debride step) {
      fields.put("area", step.area());
      fields.put("aspect", step.aspect().word());
      fields.put("pass", step.pass().word());
      fields.put("insert", step.insert());
      fields.put("power", step.power().word());
      fields.put("needsNumb", step.needsNumb());
      if (step.pass() == Pass.IMPLANT_CARE && step.teeth().size() == 1) {
        fields.put("tooth", step.teeth().get(0).toString());
      }
      fields.put("teeth", step.teeth().stream().map(Tooth::toString).toList());
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

  private static Map<String, Object> heldBack(HeldBack held) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("area", held.area());
    fields.put("pass", held.pass());
    fields.put("aspect", held.aspect());
    fields.put("teeth", List.of(held.teeth().trim().split("\\s+")));
    fields.put("reason", held.reason());
    return fields;
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
