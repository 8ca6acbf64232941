package quadrille.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille move}. */
@Command(
    name = "move",
    customSynopsis = "quadrille move DIARY BOOKING --to TIME [OPTION ...]",
    description = {
      "Put one visit at another time by hand; nothing else moves.",
      "",
      "The new place is audited: hours, absence, who may do what, order and gaps of its",
      "course, chairs, sterile sets."
    })
final class MoveCommand extends BookingVerbCommand {

  @Option(
      names = "--to",
      order = 10,
      required = true,
      paramLabel = "TIME",
      description = "When it starts, by the practice's clock: 2026-03-09T09:30.")
  private String to = "";

  @Option(
      names = "--with",
      order = 11,
      paramLabel = "WHO",
      description = "Another clinician, by id; else the one who has it.")
  @Nullable
  private String clinician;

  @Option(
      names = "--chair",
      order = 12,
      paramLabel = "CHAIR",
      description = "A chair, by id; else its own, or the first that is free.")
  @Nullable
  private String chair;

  @Option(names = "--past", order = 13, description = "A time that is past is meant.")
  private boolean past;

  MoveCommand(Streams streams) {
    super(streams);
  }

  @Override
  DeskChange change(Diary diary, String booking) throws StopException {
    return new DeskChange.Move(
        booking, Days.wall("--to", to, diary.zone()), clinician, chair, past);
  }
}
