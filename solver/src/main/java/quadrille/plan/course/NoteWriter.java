package quadrille.plan.course;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import quadrille.plan.course.PlanChange.AreaPass;
import quadrille.plan.course.PlanChange.What;
import quadrille.plan.course.PlanChange.Why;
import quadrille.plan.work.WorkNote;

/**
 * Writes cautions, assumptions and changes as objects with typed keys, or a text as it was written.
 */
final class NoteWriter {
  private final PlanWriter plan;

  NoteWriter(PlanWriter plan) {
    this.plan = plan;
  }

  Map<String, Object> caution(Caution caution) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (caution instanceof Caution.AsWritten written) {
      fields.put("asWritten", written.text());
    } else if (caution instanceof Caution.UnknownAlert unknown) {
      fields.put("caution", FileWords.of(CautionKind.UNKNOWN_ALERT));
      fields.put("alert", unknown.alert().word());
    } else if (caution instanceof Caution.AntibioticCovers some) {
      fields.put("caution", FileWords.of(CautionKind.ANTIBIOTIC_COVERS));
      fields.put("alert", some.alert().word());
      fields.put("covers", some.covers());
    } else if (caution instanceof Caution.OfWork work) {
      put(fields, work.note());
    } else if (caution instanceof Caution.BlockMayFail block) {
      fields.put("caution", FileWords.of(CautionKind.BLOCK_MAY_FAIL));
      plan.put(fields, block.injection());
      Caution.Rescue rescue = block.rescue();
      if (rescue != null) {
        fields.put("agent", rescue.agent());
        fields.put("ml", number(rescue.ml()));
        fields.put("room", rescue.room());
      }
    } else if (caution instanceof Caution.StrongSolutionInBlock strong) {
      fields.put("caution", FileWords.of(CautionKind.STRONG_SOLUTION_IN_BLOCK));
      plan.put(fields, strong.injection());
      fields.put("agent", strong.agent());
    } else if (caution instanceof Caution.BlockBeforeLook block) {
      fields.put("caution", FileWords.of(CautionKind.BLOCK_BEFORE_LOOK));
      plan.put(fields, block.injection());
    } else if (caution instanceof Caution.DidNotTake failed) {
      fields.put("caution", FileWords.of(CautionKind.DID_NOT_TAKE));
      plan.put(fields, failed.injection());
      fields.put("visit", failed.visit());
      fields.put("date", failed.date().toString());
    } else if (caution instanceof Caution.GivenThatDay given) {
      fields.put("caution", FileWords.of(CautionKind.GIVEN_THAT_DAY));
      fields.put("injections", given.injections().stream().map(plan::injection).toList());
      fields.put("gelCartridges", number(given.gelCartridges()));
    } else if (caution instanceof Caution.LeftOpen open) {
      fields.put("caution", FileWords.of(CautionKind.LEFT_OPEN));
      fields.put("areas", open.areas().stream().map(plan::area).toList());
      if (!open.waiting().isEmpty()) {
        fields.put("waiting", passes(open.waiting()));
      }
    } else if (caution instanceof Caution.SleeveBroke sleeve) {
      fields.put("caution", FileWords.of(CautionKind.SLEEVE_BROKE));
      fields.put("tooth", plan.name(sleeve.implant()));
      fields.put("visit", sleeve.visit());
      fields.put("date", sleeve.date().toString());
    } else {
      fields.put("caution", FileWords.of((Caution.Known) caution));
    }
    return fields;
  }

  Map<String, Object> stopQuestion(StopQuestion question) {
    Map<String, Object> fields = StopQuestions.fields(question);
    if (question instanceof StopQuestion.Known) {
      plan.say(fields, "question", said -> said.stopQuestion(question));
    }
    return fields;
  }

  private void put(Map<String, Object> fields, WorkNote note) {
    if (note instanceof WorkNote.Unprobed unprobed) {
      fields.put("caution", FileWords.of(CautionKind.UNPROBED));
      fields.put("takenAsMm", number(unprobed.takenAsMm().value()));
      fields.put("source", unprobed.takenAsMm().source());
      fields.put("afterGross", unprobed.afterGross());
    } else if (note instanceof WorkNote.ChartFirst first) {
      fields.put("caution", FileWords.of(CautionKind.CHART_FIRST));
      fields.put("unprobed", first.unprobed());
      fields.put("sites", first.sites());
      fields.put("mostShare", number(first.mostShare().value()));
      fields.put("source", first.mostShare().source());
      fields.put("seconds", first.seconds());
    } else {
      fields.put("caution", FileWords.of(((WorkNote.Of) note).kind()));
    }
    fields.put("teeth", note.teeth().stream().map(plan::name).toList());
  }

  Map<String, Object> assumption(Assumption assumption) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (assumption instanceof Assumption.AsWritten written) {
      fields.put("asWritten", written.text());
    } else if (assumption instanceof Assumption.Time time) {
      fields.put("assumption", FileWords.of(time.use()));
      fields.put("seconds", time.seconds());
      fields.put("value", number(time.value()));
      fields.put("source", time.source());
    } else if (assumption instanceof Assumption.BookedInTime booked) {
      fields.put("assumption", FileWords.of(AssumptionKind.BOOKED_IN_TIME));
      fields.put("certainty", number(booked.certainty()));
      fields.put("spread", number(booked.spread()));
      fields.put("source", booked.source());
    }
    return fields;
  }

  /** That the search was asked to end early, at the head of the assumptions. */
  static Map<String, Object> cutShort() {
    return Map.of("assumption", FileWords.of(AssumptionKind.CUT_SHORT));
  }

  Map<String, Object> change(PlanChange change) {
    Map<String, Object> fields = new LinkedHashMap<>();
    Integer visit = change.visit();
    if (visit != null) {
      fields.put("visit", visit);
    }
    if (change.what() instanceof What.AsWritten written) {
      fields.put("what", written.text());
    } else {
      plan.say(fields, "what", said -> said.what(change, plan.numbering()));
      fields.put("change", what(change.what()));
    }
    if (change.why() instanceof Why.AsWritten written) {
      fields.put("why", written.text());
    } else {
      plan.say(fields, "why", said -> said.why(change));
      fields.put("because", why(change.why()));
    }
    return fields;
  }

  private Map<String, Object> what(What what) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (what instanceof What.OtherPractice other) {
      fields.put("kind", FileWords.of(ChangeKind.OTHER_PRACTICE));
      fields.put("practice", other.name());
      fields.put("before", other.before());
    } else if (what instanceof What.FallsAway away) {
      fields.put("kind", FileWords.of(ChangeKind.FALLS_AWAY));
      fields.put("booked", away.booked());
    } else if (what instanceof What.IsNew one) {
      fields.put("kind", FileWords.of(ChangeKind.IS_NEW));
      fields.put("bookedMinutes", one.bookedMinutes());
      fields.put("passes", passes(one.passes()));
    } else if (what instanceof What.Takes takes) {
      fields.put("kind", FileWords.of(ChangeKind.TAKES));
      pass(fields, takes.pass());
    } else if (what instanceof What.NoLongerHas gone) {
      fields.put("kind", FileWords.of(ChangeKind.NO_LONGER_HAS));
      pass(fields, gone.pass());
    } else if (what instanceof What.Seconds other) {
      fields.put("kind", FileWords.of(ChangeKind.SECONDS));
      pass(fields, other.pass());
      fields.put("seconds", other.seconds());
      fields.put("before", other.before());
    } else if (what instanceof What.Needs needs) {
      fields.put("kind", FileWords.of(ChangeKind.NEEDS));
      fields.put("minutes", needs.minutes());
      fields.put("before", needs.before());
      Integer booked = needs.booked();
      if (booked != null) {
        fields.put("booked", booked);
      }
    } else if (what instanceof What.Numbs numbs) {
      fields.put("kind", FileWords.of(ChangeKind.NUMBS));
      fields.put("side", numbs.side().word());
      fields.put("before", numbs.before().word());
    } else if (what instanceof What.Gives gives) {
      fields.put("kind", FileWords.of(ChangeKind.GIVES));
      fields.put("injections", gives.injections().stream().map(plan::injection).toList());
      fields.put("before", gives.before().stream().map(plan::injection).toList());
    } else {
      fields.put("kind", FileWords.of(ChangeKind.OTHER_ORDER));
    }
    return fields;
  }

  private static Map<String, Object> why(Why why) {
    Map<String, Object> fields = new LinkedHashMap<>();
    if (why instanceof Why.LeftUndone left) {
      fields.put("kind", FileWords.of(WhyKind.LEFT_UNDONE));
      fields.put("visit", left.visit());
      fields.put("begun", left.begun());
    } else {
      fields.put("kind", FileWords.of((Why.Known) why));
    }
    return fields;
  }

  private List<Map<String, Object>> passes(List<AreaPass> passes) {
    return passes.stream().map(pass -> pass(new LinkedHashMap<>(), pass)).toList();
  }

  private Map<String, Object> pass(Map<String, Object> fields, AreaPass pass) {
    fields.put("areaRef", plan.area(pass.area()));
    fields.put("pass", pass.pass().word());
    return fields;
  }

  private static BigDecimal number(double value) {
    return BigDecimal.valueOf(value);
  }

  /** Cautions with figures of their own. */
  enum CautionKind {
    UNKNOWN_ALERT,
    ANTIBIOTIC_COVERS,
    UNPROBED,
    CHART_FIRST,
    BLOCK_MAY_FAIL,
    STRONG_SOLUTION_IN_BLOCK,
    BLOCK_BEFORE_LOOK,
    DID_NOT_TAKE,
    GIVEN_THAT_DAY,
    LEFT_OPEN,
    SLEEVE_BROKE
  }

  /** What is no use of a figure. */
  enum AssumptionKind {
    BOOKED_IN_TIME,
    CUT_SHORT
  }

  /** Kinds of change. */
  enum ChangeKind {
    OTHER_PRACTICE,
    FALLS_AWAY,
    IS_NEW,
    TAKES,
    NO_LONGER_HAS,
    SECONDS,
    NEEDS,
    NUMBS,
    GIVES,
    OTHER_ORDER
  }

  /** Reasons with figures of their own. */
  enum WhyKind {
    LEFT_UNDONE
  }
}
