package quadrille.cli.serve;

import java.util.List;

/**
 * A day of the practice.
 *
 * @param day such as Monday 2 March 2026
 * @param today whether it is today
 * @param before the day before, as in addresses
 * @param after the day after
 * @param next the next day on which somebody comes, in words; empty where there is none
 * @param nextDate the same as in addresses
 * @param kit what to lay out for all of them together, one line each
 * @param findings what the audit finds in the diary
 * @param unread files that cannot be read, and why
 */
public record TodayPage(
    boolean demo,
    String day,
    boolean today,
    String before,
    String after,
    String next,
    String nextDate,
    List<Visit> coming,
    List<String> kit,
    List<Group> waiting,
    List<String> findings,
    List<String> unread) {

  /**
   * Who comes.
   *
   * @param from such as 09:30
   * @param facts what visit it is, how long, who and where
   * @param stops what is asked before anything is touched
   * @param tray what to lay out, one line each
   * @param minds what is wrong or not known
   * @param log what addresses call the course's log; empty where there is none
   */
  public record Visit(
      String from,
      String to,
      String name,
      int number,
      String style,
      String facts,
      List<String> stops,
      List<String> tray,
      List<String> minds,
      String log) {}

  /** Courses that wait for the same thing. */
  public record Group(String title, List<Line> lines) {}

  /**
   * A course that waits.
   *
   * @param log what addresses call its log; empty where there is none
   */
  public record Line(String name, String words, String log) {}
}
