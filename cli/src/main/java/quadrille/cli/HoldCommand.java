package quadrille.cli;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import quadrille.diary.book.Diary;
import quadrille.diary.desk.DeskChange;

/** {@code quadrille hold}. */
@Command(
    name = "hold",
    customSynopsis = "quadrille hold DIARY BOOKING [--until TIME]",
    description = {
      "Hold a visit: its time is taken, and the patient has not been promised it.",
      "",
      "With --until it is called off by itself then, unless it has been promised."
    })
final class HoldCommand extends BookingVerbCommand {

  @Option(
      names = "--until",
      order = 10,
      paramLabel = "TIME",
      description = "When the hold ends, by the practice's clock: 2026-03-05T12:00.")
  @Nullable
  private String until;

  HoldCommand(Streams streams) {
    super(streams);
  }

  @Override
  DeskChange change(Diary diary, String booking) throws StopException {
    return new DeskChange.Hold(
        booking, until == null ? null : Days.wall("--until", until, diary.zone()));
  }
}
