// All tests of the pages, in one Chromium.
import "./test_review.mjs";
import "./test_keys.mjs";
import "./test_item.mjs";
import "./test_hostile.mjs";
import "./test_two_tabs.mjs";
import "./test_find.mjs";
import "./test_looks.mjs";
