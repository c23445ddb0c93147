"""One-time addresses: a page with one button, spent by its use."""

from catalogue.workroom.sign_in import one_time_path


def test_looking_at_the_address_does_not_spend_it_and_the_button_does(client, people):
    path = one_time_path(people.maker)
    assert client.get(path).status_code == 200
    assert client.get(path).status_code == 200
    assert client.post(path).status_code == 302
    client.logout()
    assert client.get(path).status_code == 410
    assert client.post(path).status_code == 410


def test_an_address_with_another_persons_token_is_refused(client, people):
    uid = one_time_path(people.keeper).split("/")[-3]
    token = one_time_path(people.maker).split("/")[-2]
    assert client.post(f"/sign-in/once/{uid}/{token}/").status_code == 410
