package quadrille.cli.render.page;

import java.util.List;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;

/** A week as one self-contained HTML document; see {@link PlanPages} for what that means. */
public final class DiaryPages {

  private DiaryPages() {}

  /**
   * The document.
   *
   * @param notes what had to be taken for something in calendars
   */
  public static String of(Diary diary, DiaryWeek week, List<String> notes) {
    return Templates.render("page/diary.jte", week(diary, week, notes));
  }

  /** What the document shows, for pages that are more than it. */
  public static DiaryPage week(Diary diary, DiaryWeek week, List<String> notes) {
    return DiaryPage.of(diary, week, notes);
  }
}
