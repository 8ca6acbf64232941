package quadrille.cli.render;

import java.util.List;
import quadrille.facts.chart.Numbering;
import quadrille.treatment.record.Doubt;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.TeethInDoubt;

/** What in a course's log is worth a second look, in words. */
public final class DoubtWords {

  private DoubtWords() {}

  /** A doubt, without a full stop; teeth by this numbering. */
  public static String of(Doubt doubt, Numbering numbering) {
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
      return visit + ", what it gave by the record: " + dose.refusal();
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
        + said(statement.said(), numbering)
        + ": was that tooth "
        + Words.teeth(statement.teeth(), numbering)
        + ", by the chart's numbers 1 to 32? Confirm it, or record a correction";
  }

  /** A doubt, and the entry that it is about. */
  public static String withEntry(Doubt doubt, Numbering numbering) {
    return of(doubt, numbering) + " (entry " + doubt.entry() + ")";
  }

  /** Why a course cannot be planned again yet: a line for each statement, and what to do. */
  public static String unconfirmed(
      String course, List<TeethInDoubt.Statement> statements, Numbering numbering) {
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
              + said(one.said(), numbering)
              + "\n");
    }
    return lines
        + "Nothing is planned until a person has looked at each. What is right: record "
        + course
        + " --confirm-teeth \"TOOTH ...\" --by NAME. What is wrong: record "
        + course
        + " --correct ENTRY ...";
  }

  private static String said(TeethInDoubt.Said said, Numbering numbering) {
    if (said instanceof TeethInDoubt.Found found) {
      return FindingWords.finding(found.finding(), numbering);
    }
    if (said instanceof TeethInDoubt.Injected injected) {
      return FindingWords.given(injected.given(), numbering) + " was given";
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
