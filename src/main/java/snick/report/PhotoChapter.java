package snick.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snick.journal.Inspection;
import snick.phrase.Phrase;
import snick.report.plot.NotedInWords;
import snick.store.care.Photos;
import snick.verdict.burr.StageEvidence;

/** Photos of what was seen, small, so many at most that the report can still be sent. */
record PhotoChapter(SessionStory story, Photos photos, NotedInWords noted) {
  private static final int MOST = 12;
  private static final int LONGEST_SIDE_PX = 1000;

  /** Nothing where there is no photo. */
  List<Block> blocks() {
    List<Block> blocks = new ArrayList<>();
    int more = 0;
    for (StageEvidence stage : story.stages()) {
      for (Inspection look : stage.inspections()) {
        if (look.photo().isPresent() && blocks.size() < MOST) {
          blocks.add(photo(stage, look));
        } else if (look.photo().isPresent()) {
          more++;
        }
      }
    }
    if (more > 0) {
      blocks.add(new Block.Paragraph(noted.words().say("report.more_photos", "n", more)));
    }
    return blocks;
  }

  private Block photo(StageEvidence stage, Inspection look) {
    String what =
        noted
            .words()
            .say(
                Phrase.of("report.photo")
                    .with("stage", stage.stage().name())
                    .with("what", noted.inspections(List.of(look))));
    Optional<byte[]> copy =
        look.photo()
            .flatMap(photos::read)
            .flatMap(content -> PhotoCopy.of(content, LONGEST_SIDE_PX));
    return copy.isPresent()
        ? new Block.Photo(copy.get(), what)
        : new Block.Paragraph(noted.words().say("report.no_photo", "what", what));
  }
}
