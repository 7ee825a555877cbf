#include "gui/console/run.h"

// Arguments are looked at before anything else starts: no toolkit, no display, no font is needed here.
int main(int argc, char** argv)
{
    return foreday::console::run(argc, argv);
}
