package quadrille.cli.render;

import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Diary;

/** What the audit finds in a diary, with the ways out. */
public final class DiaryFindingWords {

  private DiaryFindingWords() {}

  /** A finding and what helps, on one line. */
  public static String line(DiaryFinding finding) {
    return finding.line() + ". Ways out: " + waysOut(finding) + ".";
  }

  /** A finding as the page says it: whose visit, what is wrong, and what can be done there. */
  public static String said(DiaryFinding finding, Diary diary) {
    String whose =
        diary
            .booking(finding.booking())
            .map(one -> one.caseName() + ", visit " + one.visit())
            .orElse(finding.booking());
    return whose
        + ": "
        + finding.message()
        + ". "
        + switch (finding.rule()) {
          case KNOWN -> "The diary has to know the name.";
          case BOOKED_ONCE -> "One of the two is to be called off.";
          case CLINICIAN_ONCE, CHAIR_ONCE, HOURS, AWAY, CLOSED, PATIENT, SETS ->
              "Another time or place would do.";
          case CAPABILITY, INJECTOR -> "Somebody who may inject would do.";
          case AS_ASKED -> "Times are to be offered again.";
          case ORDER -> "What lacks is to be booked first.";
          case GAP, FINISH_WITHIN -> "Another day would do; or ask the clinician.";
          case PROVISIONAL -> "Hold it until the history has been taken.";
        };
  }

  /** What helps, such as {@code move or call-off K-1042/2}. */
  static String waysOut(DiaryFinding finding) {
    String booking = finding.booking();
    return switch (finding.rule()) {
      case KNOWN -> "put the name into the diary, or move " + booking;
      case BOOKED_ONCE -> "call-off " + booking + " or " + finding.against();
      case CLINICIAN_ONCE, CHAIR_ONCE, HOURS, AWAY, CLOSED, PATIENT, SETS ->
          "move or call-off " + booking + "; done, where it took place";
      case CAPABILITY, INJECTOR -> "move " + booking + " --with somebody who may";
      case AS_ASKED -> "book the plan again, which offers another time where it must";
      case ORDER -> "book the plan again for what lacks, or call-off " + booking;
      case GAP, FINISH_WITHIN -> "move " + booking + ", or ask the clinician";
      case PROVISIONAL -> "hold " + booking + " until the history has been taken";
    };
  }
}
