package quadrille.cli.render;

import java.util.List;
import java.util.Locale;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Objection;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Refusal;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.TeethInDoubt;

/** What in a course's log is worth a second look, in words. */
public final class DoubtWords {

  private DoubtWords() {}

  /** A doubt, without a full stop; teeth by this numbering. */
  public static String of(Doubt doubt, Numbering numbering, Practice practice) {
    if (doubt instanceof Doubt.ClockWentBack back) {
      return "the clock went back: entry "
          + back.entry()
          + " is of "
          + back.at()
          + ", entry "
          + (back.entry() - 1)
          + " before it of "
          + back.before();
    }
    String visit = "visit " + doubt.visit();
    if (doubt instanceof Doubt.DatedBefore dated) {
      return visit
          + " is dated "
          + dated.date()
          + ", before visit "
          + dated.other()
          + " ("
          + dated.otherDate()
          + "), which was recorded before it";
    }
    if (doubt instanceof Doubt.Dose dose) {
      return visit + ", what it gave by the record: " + refusal(dose.refusal(), practice);
    }
    if (doubt instanceof Doubt.CorrectedSince since) {
      return visit
          + " was corrected after the visits to come were planned (entry "
          + since.planned()
          + "); plan --course sees what that changes";
    }
    TeethInDoubt.Statement statement = ((Doubt.Teeth) doubt).statement();
    return visit
        + ", "
        + said(statement.said(), numbering, practice)
        + ": was that tooth "
        + Words.teeth(statement.teeth(), numbering)
        + ", by the chart's numbers 1 to 32? Confirm it, or record a correction";
  }

  /** Why something may not be given, or not so much of it. */
  static String refusal(Refusal refusal, Practice practice) {
    if (refusal instanceof Refusal.TooMuch one) {
      return String.format(
          Locale.ROOT,
          "%s at %.0f %% of its maximum (%.1f of %.1f)",
          Words.agent(one.of().name(), practice),
          100 * one.of().share(),
          one.of().given(),
          one.of().most());
    }
    if (refusal instanceof Refusal.TooMuchTogether one) {
      return String.format(
          Locale.ROOT, "the shares add up to %.0f %% of the maximum", 100 * one.share());
    }
    if (refusal instanceof Refusal.TooMuchEpinephrine one) {
      return String.format(
          Locale.ROOT, "epinephrine %.4f mg is over %.4f mg", one.mg(), one.capMg());
    }
    if (refusal instanceof Refusal.TooMuchGel one) {
      return String.format(
          Locale.ROOT,
          "%s in %s: %.2f cartridges, at most %.2f a quadrant",
          one.gel(),
          one.quadrant(),
          one.cartridges(),
          one.most());
    }
    return objection(((Refusal.ForPatient) refusal).objection());
  }

  /** What speaks against an agent or gel for a patient, whatever the amount. */
  static String objection(Objection objection) {
    if (objection instanceof Objection.Forbidden one) {
      return "alert " + one.alert().word() + " forbids " + one.part();
    }
    if (objection instanceof Objection.NotOwned one) {
      return "the practice has no " + one.gel();
    }
    if (objection instanceof Objection.TooYoung one) {
      return one.ageYears() == null
          ? "the patient's age is not known, and it is not for those under "
              + one.fromAgeYears()
              + " years"
          : "the patient is under " + one.fromAgeYears() + " years";
    }
    return objection instanceof Objection.NoHistory
        ? "nobody has taken the patient's medical history"
        : "the patient's weight is not known, so no maximum dose can be worked out";
  }

  /** A doubt, and the entry that it is about. */
  public static String withEntry(Doubt doubt, Numbering numbering, Practice practice) {
    return of(doubt, numbering, practice) + " (entry " + doubt.entry() + ")";
  }

  /** Why a course cannot be planned again yet: a line for each statement, and what to do. */
  public static String unconfirmed(
      String course,
      List<TeethInDoubt.Statement> statements,
      Numbering numbering,
      Practice practice) {
    StringBuilder lines = new StringBuilder();
    lines.append(
        course
            + ": an old log of a chart numbered 1 to 32. It took teeth as ISO 3950 codes, so these"
            + " may be other teeth than were meant:\n");
    for (TeethInDoubt.Statement one : statements) {
      lines.append(
          "  entry "
              + one.entry()
              + ", visit "
              + one.visit()
              + ", tooth "
              + Words.teeth(one.teeth(), numbering)
              + ": "
              + said(one.said(), numbering, practice)
              + "\n");
    }
    return lines
        + "Nothing is planned until a person has looked at each. What is right: record "
        + course
        + " --confirm-teeth \"TOOTH ...\" --by NAME. What is wrong: record "
        + course
        + " --correct ENTRY ...";
  }

  private static String said(TeethInDoubt.Said said, Numbering numbering, Practice practice) {
    if (said instanceof TeethInDoubt.Found found) {
      return FindingWords.finding(found.finding(), numbering, practice);
    }
    if (said instanceof TeethInDoubt.Injected injected) {
      return FindingWords.given(injected.given(), numbering, practice) + " was given";
    }
    StepDone step = ((TeethInDoubt.Excepted) said).step();
    return step.area().name(numbering)
        + " "
        + step.pass().word()
        + " "
        + step.aspect().word()
        + ", teeth "
        + Words.teeth(step.teeth(), numbering)
        + (step.share() == 0 ? ", not done" : ", " + Words.percent(step.share()) + " done");
  }
}
