/* What a look at a converter may find. */
#ifndef NEWS_H
#define NEWS_H

enum converter_news {
  CONVERTER_NOTHING,
  CONVERTER_CODE,  /* a code and the time at which it was ready */
  CONVERTER_MISSED /* a code came whose time is not known, or was overwritten */
};

#endif
