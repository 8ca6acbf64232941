package quadrille.cli.serve;

import java.io.IOException;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.PageKind;
import quadrille.cli.render.page.PlanPages;
import quadrille.cli.render.page.ProgressKind;
import quadrille.cli.render.page.ProgressPages;
import quadrille.cli.serve.PracticeFolder.Log;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.audit.Finding;
import quadrille.treatment.recording.LoggedPlan;

/** The pages to print of an accepted course: the same as those of the command page. */
final class LogRoom {

  private final PracticeFolder folder;

  LogRoom(PracticeFolder folder) {
    this.folder = folder;
  }

  Optional<Reply> answer(Request request) throws IOException, InvalidDocumentException {
    Optional<Log> log = folder.log(request.part(1)::equals);
    if (log.isEmpty() || !request.reading()) {
      return Optional.empty();
    }
    return switch (String.join("/", request.path().subList(2, request.path().size()))) {
      case "print" -> Optional.of(sheets(log.get()));
      case "progress/print" ->
          Optional.of(
              Reply.html(
                  ProgressPages.of(
                      log.get().log(), EnumSet.of(ProgressKind.PROGRESS), Language.english())));
      default -> Optional.empty();
    };
  }

  private Reply sheets(Log log) {
    LoggedPlan plan = LoggedPlan.of(log.log());
    List<Finding> findings = plan.audit();
    return findings.isEmpty()
        ? Reply.html(
            PlanPages.of(
                plan.chart(),
                plan.practice(),
                plan.course(),
                plan.booked(),
                EnumSet.allOf(PageKind.class),
                Language.english()))
        : Views.message(
            409,
            folder.demo(),
            "The plan does not pass its audit, so no page is drawn",
            findings.stream().map(Finding::line).toList());
  }
}
