package quadrille.plan.course;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Map;
import quadrille.facts.chart.WishFields;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.course.WhyVisit.Because;

/** Writes why a course is as it is as objects with typed keys. */
final class ReasonWriter {
  private final PlanWriter plan;

  ReasonWriter(PlanWriter plan) {
    this.plan = plan;
  }

  Map<String, Object> why(WhyVisit why) {
    Map<String, Object> fields = new LinkedHashMap<>();
    Because because = why.because();
    if (because instanceof WhyVisit.TooLong tooLong) {
      fields.put("because", FileWords.of(BecauseKind.LONGEST_VISIT));
      fields.put("visits", why.others());
      fields.put("minutes", tooLong.minutes());
      fields.put("longestMinutes", tooLong.longestMinutes());
      fields.put("limits", tooLong.limits().stream().map(ReasonWriter::limit).toList());
    } else if (because instanceof WhyVisit.Tray tray) {
      fields.put("because", FileWords.of(BecauseKind.TRAY));
      fields.put("visits", why.others());
      fields.put("inserts", tray.inserts());
      fields.put("holds", tray.holds().asInt());
      fields.put("source", tray.holds().source());
    } else {
      fields.put("because", FileWords.of((WhyVisit.Known) because));
      fields.put("visits", why.others());
    }
    plan.say(fields, "words", said -> said.why(why));
    return fields;
  }

  Map<String, Object> fewer(OneVisitFewer fewer) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("visits", fewer.visits());
    fields.put("remedies", fewer.remedies().stream().map(this::remedy).toList());
    plan.say(fields, "words", said -> said.oneVisitFewer(fewer));
    return fields;
  }

  Map<String, Object> wish(WishOutcome outcome) {
    Map<String, Object> fields = WishFields.members(outcome.wish(), plan.numbering());
    fields.put("state", FileWords.of(outcome.state()));
    WishOutcome.Price price = outcome.price();
    if (price != null) {
      fields.put("priceSeconds", price.seconds());
      fields.put("priceBookedMinutes", price.bookedMinutes());
      fields.put("priceVisits", price.visits());
    }
    if (outcome.against() instanceof WishOutcome.CostsMore more) {
      fields.put("wouldCostSeconds", more.seconds());
    } else if (outcome.against() instanceof WishOutcome.NoOtherInsert) {
      fields.put("noOtherInsert", true);
    } else if (outcome.against() instanceof WishOutcome.Rules rules) {
      fields.put("against", rules.rules().stream().map(FileWords::of).toList());
    }
    plan.say(fields, "words", said -> said.wish(outcome, plan.numbering()));
    return fields;
  }

  private Map<String, Object> remedy(Remedy remedy) {
    Map<String, Object> fields = change(remedy.change());
    fields.put("visits", remedy.visits());
    fields.put("longestMinutes", remedy.longestMinutes());
    return fields;
  }

  private static Map<String, Object> change(Change change) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (change instanceof Change.Visits visits) {
      fields.put("kind", FileWords.of(RemedyKind.VISITS));
      fields.put("number", visits.number());
    } else if (change instanceof Change.LongerVisits longer) {
      fields.put("kind", FileWords.of(RemedyKind.LONGER_VISITS));
      fields.put("minutes", longer.minutes());
      fields.put("insteadOfMinutes", longer.insteadOfMinutes());
      fields.put("limits", longer.limits().stream().map(ReasonWriter::limit).toList());
    } else if (change instanceof Change.LargerTray tray) {
      fields.put("kind", FileWords.of(RemedyKind.LARGER_TRAY));
      fields.put("inserts", tray.inserts());
      fields.put("insteadOf", tray.insteadOf().asInt());
      fields.put("source", tray.insteadOf().source());
    } else if (change instanceof Change.LessCertainty less) {
      fields.put("kind", FileWords.of(RemedyKind.LESS_CERTAINTY));
      fields.put("certainty", number(less.certainty()));
      fields.put("insteadOf", number(less.insteadOf().value()));
      fields.put("source", less.insteadOf().source());
    } else if (change instanceof Change.AllowAgent allow) {
      fields.put("kind", FileWords.of(RemedyKind.ALLOW_AGENT));
      fields.put("agent", allow.agent());
    } else if (change instanceof Change.FrontAcrossMidline) {
      fields.put("kind", FileWords.of(RemedyKind.FRONT_ACROSS_MIDLINE));
    } else if (change instanceof Change.PassesApart) {
      fields.put("kind", FileWords.of(RemedyKind.PASSES_APART));
    } else {
      // A wish is given up where there is no plan, and so in no file of one.
      throw new IllegalArgumentException("A plan file cannot hold the remedy " + change + ".");
    }
    return fields;
  }

  private static Map<String, Object> limit(LengthLimit limit) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("whose", FileWords.of(limit.whose()));
    if (limit.alert() != null) {
      fields.put("alert", limit.alert().word());
    }
    fields.put("minutes", limit.minutes().asInt());
    fields.put("source", limit.minutes().source());
    return fields;
  }

  private static BigDecimal number(double value) {
    return BigDecimal.valueOf(value);
  }

  /** Reasons with figures of their own. */
  enum BecauseKind {
    LONGEST_VISIT,
    TRAY
  }

  /** Kinds of change that would help. */
  enum RemedyKind {
    VISITS,
    LONGER_VISITS,
    LARGER_TRAY,
    LESS_CERTAINTY,
    ALLOW_AGENT,
    FRONT_ACROSS_MIDLINE,
    PASSES_APART
  }
}
