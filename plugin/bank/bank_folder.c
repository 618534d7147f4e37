// SPDX-License-Identifier: ISC
#include "bank.h"

#include <stdio.h>
#include <stdlib.h>

bool bank_users_folder(char folder[BANK_FOLDER_ROOM])
{
    const char* const data = getenv("XDG_DATA_HOME");
    const char* const home = getenv("HOME");
    const bool has_data = data && *data == '/'; /* others the specification ignores */
    if (!has_data && !home) {
        return false;
    }
    const int length = has_data
                           ? snprintf(folder, BANK_FOLDER_ROOM, "%s/fourlimb", data)
                           : snprintf(folder, BANK_FOLDER_ROOM, "%s/.local/share/fourlimb", home);
    return length > 0 && length < BANK_FOLDER_ROOM;
}
