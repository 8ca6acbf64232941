package quadrille.cli.render;

import quadrille.facts.practice.Frame;

/** What stands around the work of a visit, in words. */
public final class FrameWords {

  private FrameWords() {}

  /** One word for a column. */
  static String verb(Frame.Task task) {
    return switch (task) {
      case HISTORY, CONSENT -> "Ask";
      case BLOOD_PRESSURE -> "Measure";
      case RINSE -> "Rinse";
      case CHARTING -> "Chart";
      case INSTRUCTION -> "Explain";
      case LAST_LOOK -> "Look";
    };
  }

  /** What follows the word. */
  static String what(Frame.Task task) {
    return switch (task) {
      case HISTORY -> "the history, and what is new in it";
      case BLOOD_PRESSURE -> "the blood pressure";
      case CONSENT -> "for consent to the treatment";
      case RINSE -> "before the work";
      case CHARTING -> "six sites a tooth";
      case INSTRUCTION -> "care at home";
      case LAST_LOOK -> "that the bleeding has stopped, before the patient leaves";
    };
  }

  /** Both in one phrase. */
  public static String of(Frame.Task task) {
    return verb(task) + " " + what(task);
  }
}
