package quadrille.cli.render;

import java.util.List;
import quadrille.diary.book.Diary;
import quadrille.diary.book.JournalEntry;
import quadrille.diary.desk.ChangeAnswer;

/** A diary's journal, to be read or printed. */
public final class JournalText {

  private static final int INDENT = 3;

  private JournalText() {}

  /**
   * Renders entries.
   *
   * @param diary in which they stand
   */
  public static String of(Diary diary, List<JournalEntry> entries, boolean styled) {
    Page page = new Page(styled);
    page.heading("Journal, " + diary.zone().getId());
    if (entries.isEmpty()) {
      page.paragraph("Nothing has been written in it.");
    }
    entries.forEach(entry -> entry(page, diary, entry));
    return page.text();
  }

  /** Says what a change did. */
  public static String done(ChangeAnswer.Changed changed, boolean styled) {
    Page page = new Page(styled);
    entry(page, changed.after(), changed.entry());
    page.blank();
    page.paragraph(
        "The diary has been replaced."
            + switch (changed.entry().did()) {
              case FORGET -> "";
              case UNDO -> " quadrille undo takes back the change before that one.";
              default -> " quadrille undo takes it back.";
            });
    return page.text();
  }

  private static void entry(Page page, Diary diary, JournalEntry entry) {
    page.paragraph(JournalWords.title(entry, diary));
    for (String line : JournalWords.lines(entry, diary)) {
      page.hang("", INDENT, line);
    }
  }
}
