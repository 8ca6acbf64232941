package quadrille.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille undo}. */
@Command(
    name = "undo",
    customSynopsis = "quadrille undo DIARY [OPTION ...]",
    description = {
      "Take back the last change that the diary's journal tells of.",
      "",
      "Asked again, it takes back the one before.",
      "",
      "Whatever it changed is as it was, and the journal says so. What a patient or a",
      "calendar was told meanwhile is not taken back: export again."
    })
final class UndoCommand extends VerbCommand {

  @Option(
      names = "--anyway",
      order = 10,
      description = "Also where the audit finds something in the diary that comes back.")
  private boolean anyway;

  UndoCommand(Streams streams) {
    super(streams);
  }

  @Override
  DeskChange change(Diary diary) {
    return new DeskChange.Undo(anyway);
  }
}
