package quadrille.cli;

import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.BookWords;
import quadrille.cli.render.DeskWords;
import quadrille.cli.render.DiaryFindingWords;
import quadrille.cli.render.JournalJson;
import quadrille.cli.render.JournalText;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.book.Diary;
import quadrille.diary.book.Signature;
import quadrille.diary.desk.ChangeAnswer;
import quadrille.diary.desk.ChangeDesk;
import quadrille.diary.desk.DeskChange;
import quadrille.diary.file.DiaryVerdict;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;

/**
 * A change to a diary by hand. The diary is replaced whole, and only if it still is the one that
 * was read; what was done is told, and stands in its journal.
 */
abstract class VerbCommand extends AnswerCommand {

  @Parameters(index = "0", paramLabel = "DIARY", description = "The practice's diary.")
  private String diaryFile = "";

  @Mixin private SigningOptions signing = new SigningOptions();

  VerbCommand(Streams streams) {
    super(streams);
  }

  /**
   * What is to be changed.
   *
   * @param diary as it is
   */
  abstract DeskChange change(Diary diary) throws StopException;

  /** Whether a reason must be given. */
  boolean needsReason() {
    return false;
  }

  /** What is done once the diary has been replaced. */
  void after(ChangeAnswer.Changed changed) throws InvalidDocumentException, StopException {}

  /** Other files that the command takes away: none of those that it reads or writes. */
  List<String> beside() {
    return List.of();
  }

  @Override
  final int run() throws InvalidDocumentException, StopException {
    checkOutput(diaryFile);
    checkOutput(beside().toArray(String[]::new));
    Signature signed = signing.signature(this, streams().clock().instant());
    if (needsReason() && !signing.reasoned()) {
      throw StopException.usage("--because: say why.");
    }
    LoadedDiary read = DiaryFiles.now(diaryFile, streams());
    List<String> kept = new ArrayList<>(SideFiles.calendars(diaryFile, read));
    checkOutput(kept.toArray(String[]::new));
    kept.add(diaryFile);
    for (String file : beside()) {
      Documents.checkWritable(file, true, kept.toArray(String[]::new));
    }
    ChangeAnswer answer = ChangeDesk.ask(read, change(read.diary()), signed);
    if (answer instanceof ChangeAnswer.Stopped stopped) {
      throw StopException.refused(DeskWords.stopped(stopped, read.diary()));
    }
    if (!(answer instanceof ChangeAnswer.Changed changed)) {
      throw StopException.usage(DeskWords.refusal(answer, read.diary()));
    }
    if (!DiaryFiles.at(diaryFile, file -> ChangeDesk.write(file, changed, streams().files()))) {
      throw StopException.refused(BookWords.changed(diaryFile) + " Ask again.");
    }
    answer(
        format(Format.TEXT) == Format.JSON
            ? JournalJson.of(changed.after(), List.of(changed.entry()))
            : JournalText.done(changed, styled()));
    tell(changed.verdict());
    after(changed);
    return Status.DONE;
  }

  private void tell(DiaryVerdict verdict) {
    if (!verdict.made().isEmpty()) {
      message("To be put right now:");
      verdict.made().forEach(this::tell);
    }
    if (!verdict.left().isEmpty()) {
      message("Found in the diary as it was, and left alone:");
      verdict.left().forEach(this::tell);
    }
  }

  private void tell(DiaryFinding finding) {
    message(DiaryFindingWords.line(finding));
  }
}
