package quadrille.cli.serve;

import java.util.List;
import java.util.Map;
import quadrille.cli.render.page.DiaryPage;

/**
 * The diary's room: a week, and what can be changed in it.
 *
 * @param revision what the diary was when it was read
 * @param week such as 2026-03-02, as in addresses
 * @param before the week before, as in addresses
 * @param after the week after, as in addresses
 * @param picture the week drawn, and what each course needs next
 * @param days visits of the week by day
 * @param ids what forms call a booking that is to come, by its id
 * @param grid minutes between two times at which a visit may start
 * @param today such as 2026-03-02
 * @param courses for which something is to be done
 * @param people who may be at the desk
 * @param by who was it last
 * @param clinicians who treat
 * @param chairs where
 * @param reasons why something is called off
 * @param said what has just been done, lines; empty where nothing has
 * @param faults why something was not done, lines; empty where nothing was asked
 * @param journal the last changes, newest first
 * @param last what would be taken back; empty where nothing can be
 */
public record DiaryRoomPage(
    boolean demo,
    String revision,
    String week,
    String before,
    String after,
    DiaryPage picture,
    List<Day> days,
    Map<String, String> ids,
    int grid,
    String today,
    List<Course> courses,
    List<String> people,
    String by,
    List<Choice> clinicians,
    List<Choice> chairs,
    List<Choice> reasons,
    List<String> said,
    List<String> faults,
    List<Change> journal,
    String last) {

  /**
   * A day with visits.
   *
   * @param title such as Monday 2 March 2026
   * @param date such as 2026-03-02
   */
  public record Day(String title, String date, List<Visit> visits) {}

  /**
   * A course for which something is to be done.
   *
   * @param id what forms call it
   * @param sentences what it needs next
   * @param offers whether times can be offered
   * @param known whether the diary has it, so that it can be ended
   */
  public record Course(
      String id, String caseName, List<String> sentences, boolean offers, boolean known) {}

  /**
   * A visit.
   *
   * @param id what forms call its booking
   * @param place among all of the week, for ids of the page
   * @param when such as 09:00-10:00
   * @param facts which visit it is, who, where, status
   * @param stops what is asked before anything is touched
   * @param coming whether it is held or promised, so that something can be done with it
   * @param held whether it is held
   * @param begun whether it has begun, so that it can be done
   * @param open whether what can be done is shown at once
   * @param typed what is in the form's fields
   */
  public record Visit(
      String id,
      int place,
      String when,
      String name,
      int number,
      String style,
      String facts,
      List<String> stops,
      boolean coming,
      boolean held,
      boolean begun,
      boolean open,
      Typed typed) {}

  /** What is in the fields of a visit's form, as browsers write days and times. */
  public record Typed(
      String by,
      String day,
      String time,
      String clinician,
      String chair,
      String untilDay,
      String untilTime,
      String because,
      String note) {}

  /** A choice of a list. */
  public record Choice(String value, String words) {}

  /** An entry of the journal. */
  public record Change(String title, List<String> lines) {}
}
